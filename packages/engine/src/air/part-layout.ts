import type { DuctPart, Leak } from '../survey/types.ts';

/** A duct part cut where air joins, leaves or leaks: positions from its air-handler end, m. */
export type PartLayout = {
  /** Ends of its pieces, rising from 0; a part that leads nowhere keeps no piece beyond its last use. */
  readonly cuts_m: readonly number[];
  /** Shares of a leak that is spread along the part, one per cut. */
  readonly alongShares: readonly number[];
};

const millimetre = (position_m: number) => Math.round(position_m * 1000) / 1000;

/** Position along `part` where `child` joins it; the far end when the child does not say. */
export const joinPosition_m = (part: DuctPart, child: DuctPart): number =>
  millimetre(Math.min(part.length_m, Math.max(0, child.joinsAt_m ?? part.length_m)));

/** Cuts `part` where `children` join and where `leaks` stand, and shares out the leaks that are spread along it. */
export function partLayout(
  part: DuctPart,
  children: readonly DuctPart[],
  leaks: readonly Leak[],
): PartLayout {
  const length_m = millimetre(part.length_m);
  const joints = children.map((child) => joinPosition_m(part, child));
  const inner = [...new Set(joints)].filter((at) => at > 0 && at < length_m).sort((a, b) => a - b);
  const leaksAlong = leaks.some((leak) => leak.at === 'along');
  // One internal node lets a leak along a run see the pressure in its middle.
  if (leaksAlong && inner.length === 0 && length_m > 0) inner.push(length_m / 2);
  const farEndInUse =
    part.terminal !== undefined ||
    part.role === 'bypass' ||
    joints.includes(length_m) ||
    leaks.some((leak) => leak.at === 'end');
  const cuts_m = [0, ...inner, ...(farEndInUse ? [length_m] : [])];
  return { cuts_m, alongShares: alongShares(cuts_m, inner.length, length_m) };
}

/** Each internal cut stands for the wall that is nearer to it than to the others. */
function alongShares(cuts_m: readonly number[], internal: number, length_m: number): number[] {
  if (internal === 0) return cuts_m.map((_, i) => (i === 0 ? 1 : 0));
  const border = (i: number) => {
    if (i === 0) return 0;
    return i === internal ? length_m : (cuts_m[i]! + cuts_m[i + 1]!) / 2;
  };
  return cuts_m.map((_, i) => (i >= 1 && i <= internal ? (border(i) - border(i - 1)) / length_m : 0));
}
