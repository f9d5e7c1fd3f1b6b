import type { CuredAir } from './solve-subsets.ts';

/** Supply air that enters rooms through their registers, m³/s. */
export function deliveredTo({ nodes, elements, solution }: CuredAir, rooms: readonly string[]): number {
  let sum = 0;
  elements.forEach((element, e) => {
    if (element.kind !== 'terminal' || element.side !== 'supply') return;
    const to = nodes[element.to]!;
    const from = nodes[element.from]!;
    if (to.kind === 'room' && rooms.includes(to.id)) sum += Math.max(0, solution.flow_m3s[e]!);
    else if (from.kind === 'room' && rooms.includes(from.id)) sum += Math.max(0, -solution.flow_m3s[e]!);
  });
  return sum;
}
