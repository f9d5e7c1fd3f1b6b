import type { PlanPoint } from '@airledger/engine';
import { edgesOf, polygonArea } from './geometry.ts';

type Triangle = { readonly corners: readonly PlanPoint[]; readonly sign: number };

/** Triangles from one corner to each edge, signed: their signed sum covers the outline once, and nothing else. */
const fan = (outline: readonly PlanPoint[]): readonly Triangle[] => {
  const origin = outline[0]!;
  return edgesOf(outline).flatMap(([a, b]): readonly Triangle[] => {
    const twice = (a[0] - origin[0]) * (b[1] - origin[1]) - (b[0] - origin[0]) * (a[1] - origin[1]);
    if (twice === 0) return [];
    return [{ corners: twice > 0 ? [origin, a, b] : [origin, b, a], sign: Math.sign(twice) }];
  });
};

/** Part of a convex shape to the left of the line `a`→`b`. */
const leftOf = (
  shape: readonly PlanPoint[],
  [a, b]: readonly [PlanPoint, PlanPoint],
): readonly PlanPoint[] => {
  const side = (p: PlanPoint): number => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
  return edgesOf(shape).flatMap(([p, q]) => {
    const [from, to] = [side(p), side(q)];
    const kept = from >= 0 ? [p] : [];
    if (from >= 0 === to >= 0) return kept;
    const t = from / (from - to);
    return [...kept, [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t] as const];
  });
};

/** True when the boxes around two outlines stand apart, in one direction at least. */
const apart = (one: readonly PlanPoint[], other: readonly PlanPoint[]): boolean =>
  [0, 1].some((axis) => {
    const [a, b] = [one.map((point) => point[axis]!), other.map((point) => point[axis]!)];
    return Math.max(...a) <= Math.min(...b) || Math.max(...b) <= Math.min(...a);
  });

/** Area that two closed outlines have in common, m²; any simple outlines, drawn either way round. */
export const overlapArea = (one: readonly PlanPoint[], other: readonly PlanPoint[]): number => {
  if (one.length < 3 || other.length < 3 || apart(one, other)) return 0;
  const others = fan(other);
  let area = 0;
  for (const { corners, sign } of fan(one))
    for (const triangle of others) {
      const common = edgesOf(triangle.corners).reduce<readonly PlanPoint[]>(
        (shape, edge) => (shape.length === 0 ? shape : leftOf(shape, edge)),
        corners,
      );
      if (common.length > 2) area += sign * triangle.sign * polygonArea(common);
    }
  return Math.abs(area);
};
