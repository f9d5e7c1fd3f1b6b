import type { PlanPoint } from '@airledger/engine';
import { areaInside } from '../survey/plan.ts';

/** Plane geometry of the plan: metres, x east, y north. */
export const polygonArea = areaInside;

export const distance = (a: PlanPoint, b: PlanPoint): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export const moved = ([x, y]: PlanPoint, [dx, dy]: PlanPoint): PlanPoint => [x + dx, y + dy];

/** Length of a line of points. */
export const pathLength = (path: readonly PlanPoint[]): number =>
  path.reduce((sum, point, i) => (i === 0 ? 0 : sum + distance(path[i - 1]!, point)), 0);

/** Edges of a closed outline. */
export const edgesOf = (outline: readonly PlanPoint[]): readonly (readonly [PlanPoint, PlanPoint])[] =>
  outline.map((corner, i) => [corner, outline[(i + 1) % outline.length]!]);

/** Whether a point lies inside a closed outline (even–odd rule). */
export const pointInPolygon = ([x, y]: PlanPoint, outline: readonly PlanPoint[]): boolean =>
  edgesOf(outline).filter(
    ([[x1, y1], [x2, y2]]) => y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1,
  ).length %
    2 ===
  1;

/** Corners counter-clockwise, whichever way they were drawn. */
export const counterClockwise = (outline: readonly PlanPoint[]): readonly PlanPoint[] => {
  const twice = edgesOf(outline).reduce((sum, [[x1, y1], [x2, y2]]) => sum + x1 * y2 - x2 * y1, 0);
  return twice >= 0 ? outline : outline.toReversed();
};

/** Middle of the corners' box. */
export const middleOf = (points: readonly PlanPoint[]): PlanPoint => {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
};

/** A place on a line: the point, its distance along the line, and how far away it is. */
export type OnLine = { readonly point: PlanPoint; readonly along_m: number; readonly away_m: number };

/** Nearest place of the straight line from `a` to `b`. */
export const nearestOnSegment = (point: PlanPoint, a: PlanPoint, b: PlanPoint): OnLine => {
  const length = distance(a, b);
  const share =
    length === 0 ? 0 : ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / length ** 2;
  const t = Math.min(Math.max(share, 0), 1);
  const on: PlanPoint = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
  return { point: on, along_m: t * length, away_m: distance(point, on) };
};

/** Nearest place of a line of points, and how far along it lies. `path` has at least one point. */
export const nearestOnPath = (point: PlanPoint, path: readonly PlanPoint[]): OnLine => {
  let best: OnLine = { point: path[0]!, along_m: 0, away_m: distance(point, path[0]!) };
  let before = 0;
  for (let i = 1; i < path.length; i++) {
    const on = nearestOnSegment(point, path[i - 1]!, path[i]!);
    if (on.away_m < best.away_m) best = { ...on, along_m: before + on.along_m };
    before += distance(path[i - 1]!, path[i]!);
  }
  return best;
};

/** Point at a distance along a line of points, and the direction there; beyond the end: the end. */
export const pointAlong = (
  path: readonly PlanPoint[],
  along_m: number,
): { readonly point: PlanPoint; readonly direction: PlanPoint } => {
  let rest = Math.max(0, along_m);
  let direction: PlanPoint = [1, 0];
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1]!, path[i]!];
    const length = distance(a, b);
    if (length === 0) continue;
    direction = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    if (rest <= length) return { point: [a[0] + direction[0] * rest, a[1] + direction[1] * rest], direction };
    rest -= length;
  }
  return { point: path.at(-1) ?? [0, 0], direction };
};

/** Angle between two directions, degrees from 0 to 180. */
export const angleBetween = (a: PlanPoint, b: PlanPoint): number => {
  const lengths = Math.hypot(...a) * Math.hypot(...b);
  if (lengths === 0) return 0;
  return (Math.acos(Math.min(1, Math.max(-1, (a[0] * b[0] + a[1] * b[1]) / lengths))) * 180) / Math.PI;
};

/** Turns of a line of points at each of its inner points, degrees. */
export const turnsOf = (path: readonly PlanPoint[]): readonly number[] =>
  path.slice(1, -1).map((point, i) => {
    const [before, after] = [path[i]!, path[i + 2]!];
    return angleBetween(
      [point[0] - before[0], point[1] - before[1]],
      [after[0] - point[0], after[1] - point[1]],
    );
  });

/** Part of an edge, as distances from its start. */
export type Stretch = { readonly from_m: number; readonly to_m: number };

/** Outlines may be drawn to the faces of a wall, so that neighbours lie a wall apart. */
const wallApart_m = 0.25;
const touching_m = 0.02;
/** Tangent of 2°. */
const nearlyParallel = 0.035;

/**
 * Stretch of the edge `a`→`b` along which an outline (counter-clockwise as the edge's own) lies on its other side, as
 * distances from `a`: edges that run the other way, at most `apart_m` away.
 */
export const sharedStretches = (
  [a, b]: readonly [PlanPoint, PlanPoint],
  other: readonly PlanPoint[],
  apart_m = wallApart_m,
): readonly Stretch[] => {
  const length = distance(a, b);
  if (length < touching_m) return [];
  const along: PlanPoint = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const place = (p: PlanPoint): readonly [along: number, outwards: number] => {
    const [dx, dy] = [p[0] - a[0], p[1] - a[1]];
    return [dx * along[0] + dy * along[1], dx * along[1] - dy * along[0]];
  };
  return edgesOf(other).flatMap(([c, d]): readonly Stretch[] => {
    const across = Math.abs(along[0] * (c[1] - d[1]) - along[1] * (c[0] - d[0]));
    const back = along[0] * (c[0] - d[0]) + along[1] * (c[1] - d[1]);
    if (back <= 0 || across > nearlyParallel * back) return [];
    const [[from, out1], [to, out2]] = [place(d), place(c)];
    if (Math.min(out1, out2) < -touching_m || Math.max(out1, out2) > apart_m) return [];
    const stretch = { from_m: Math.max(0, from), to_m: Math.min(length, to) };
    return stretch.to_m - stretch.from_m > touching_m ? [stretch] : [];
  });
};
