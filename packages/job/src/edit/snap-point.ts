import type { PlanPoint } from '@airledger/engine';
import { distance, nearestOnSegment } from './geometry.ts';

/** What attracts a point of the plan, and from how far. */
export type SnapTo = {
  /** Reach, m; nothing farther attracts. */
  readonly within_m: number;
  readonly points?: readonly PlanPoint[];
  readonly lines?: readonly (readonly [PlanPoint, PlanPoint])[];
  /** Spacing of the grid, m; 0 or absent: none. */
  readonly grid_m?: number;
  /** Point that the line in hand starts at: keeps it level or upright when it nearly is. */
  readonly from?: PlanPoint;
};

/** The point as drawn to something near, and to what. */
export type Snapped = {
  readonly point: PlanPoint;
  readonly on: 'point' | 'line' | 'square' | 'grid' | 'nothing';
};

const isBetween = (value: number, a: number, b: number): boolean =>
  value >= Math.min(a, b) && value <= Math.max(a, b);

const onGrid = (value: number, grid_m: number): number => Math.round(value / grid_m) * grid_m;

/** A point of the plan drawn to what is near: a corner first, then a line, then square to where it comes from, then the grid. */
export const snapPoint = (point: PlanPoint, { within_m, points, lines, grid_m, from }: SnapTo): Snapped => {
  const nearest = <T>(items: readonly T[], away: (item: T) => number): T | undefined => {
    let best: T | undefined;
    for (const item of items)
      if (away(item) <= within_m && (best === undefined || away(item) < away(best))) best = item;
    return best;
  };
  const corner = nearest(points ?? [], (each) => distance(point, each));
  if (corner) return { point: corner, on: 'point' };
  const places = (lines ?? []).map(([a, b]) => nearestOnSegment(point, a, b));
  const place = nearest(places, (each) => each.away_m);
  const gridded = ([x, y]: PlanPoint): PlanPoint =>
    grid_m ? [onGrid(x, grid_m), onGrid(y, grid_m)] : [x, y];
  if (place) {
    // Along a level or upright line, such as most walls are, the grid still counts.
    const [x, y] = gridded(place.point);
    const along = places
      .flatMap(({ away_m }, i) => (away_m === place.away_m ? [lines![i]!] : []))
      .map(([a, b]): PlanPoint | undefined =>
        a[1] === b[1] && isBetween(x, a[0], b[0])
          ? [x, a[1]]
          : a[0] === b[0] && isBetween(y, a[1], b[1])
            ? [a[0], y]
            : undefined,
      )
      .find((each) => each !== undefined);
    return { point: along ?? place.point, on: 'line' };
  }
  if (from) {
    const [dx, dy] = [Math.abs(point[0] - from[0]), Math.abs(point[1] - from[1])];
    const [gx, gy] = gridded(point);
    if (dy <= within_m && dx > dy) return { point: [gx, from[1]], on: 'square' };
    if (dx <= within_m && dy > dx) return { point: [from[0], gy], on: 'square' };
  }
  return grid_m ? { point: gridded(point), on: 'grid' } : { point, on: 'nothing' };
};
