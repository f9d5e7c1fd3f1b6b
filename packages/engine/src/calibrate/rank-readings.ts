/** A reading that could be taken, with the minutes that it costs. */
export type ReadingCost = {
  readonly minutes: number;
  /** What must be set up first, once for all readings that need it. */
  readonly setUp?: { readonly name: string; readonly minutes: number };
};

/** Readings of one set-up overlap in what they tell; assumed. */
const sharedWorth = 0.7;

/**
 * Worth per minute of each reading: alone with the set-up still owed, or as one of all the readings that share it,
 * whichever is more.
 * @param ready set-ups that stand already
 */
export function worthPerMinute(
  costs: readonly ReadingCost[],
  worth: readonly number[],
  ready: readonly string[],
): number[] {
  const owed = ({ setUp }: ReadingCost) => (setUp && !ready.includes(setUp.name) ? setUp.minutes : 0);
  const bundles = new Map<string, { worth: number; minutes: number; most: number }>();
  costs.forEach((cost, i) => {
    if (owed(cost) === 0) return;
    const name = cost.setUp!.name;
    const bundle = bundles.get(name) ?? { worth: 0, minutes: owed(cost), most: 0 };
    bundle.worth += worth[i]!;
    bundle.minutes += cost.minutes;
    bundle.most = Math.max(bundle.most, worth[i]! / cost.minutes);
    bundles.set(name, bundle);
  });
  return costs.map((cost, i) => {
    const alone = worth[i]! / (cost.minutes + owed(cost));
    const bundle = owed(cost) > 0 ? bundles.get(cost.setUp!.name) : undefined;
    if (!bundle || bundle.most === 0) return alone;
    // Within a bundle, readings keep the order of their own worth per minute.
    const together =
      ((sharedWorth * bundle.worth) / bundle.minutes) * (worth[i]! / cost.minutes / bundle.most);
    return Math.max(alone, together);
  });
}

/** Whether a reading takes off enough of the variance to be worth the way to it; assumed. */
export const isWorthReading = ({ narrowing }: { readonly narrowing: number }): boolean => narrowing > 0.01;
