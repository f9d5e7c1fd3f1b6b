import type { Point } from './geometry.ts';

export type Direction = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown';
export type Spot = { readonly id: string; readonly at: Point };

const headings: Record<Direction, Point> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The spot an arrow key leads to: near, and rather straight ahead than aside; undefined at the edge. */
export const nearest = (spots: readonly Spot[], from: string, key: Direction): string | undefined => {
  const start = spots.find((spot) => spot.id === from);
  if (!start) return spots[0]?.id;
  const [hx, hy] = headings[key];
  let best: { id: string; cost: number } | undefined;
  for (const spot of spots) {
    const dx = spot.at[0] - start.at[0];
    const dy = spot.at[1] - start.at[1];
    const ahead = dx * hx + dy * hy;
    const aside = Math.abs(dx * hy) + Math.abs(dy * hx);
    if (spot.id === from || ahead <= 1e-6 || aside > 3 * ahead) continue;
    const cost = ahead + 1.5 * aside;
    if (!best || cost < best.cost) best = { id: spot.id, cost };
  }
  return best?.id;
};
