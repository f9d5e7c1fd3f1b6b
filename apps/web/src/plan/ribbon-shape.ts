import { lengthsAlong, type Point, stretch } from './geometry.ts';

/** One stretch of a ribbon, between two shares of its path, as wide as the air that passes there. */
export type RibbonPiece = { readonly from: number; readonly to: number; readonly width: number };

export type RibbonShape = {
  /** Closed outline of each piece, in the order given. */
  readonly pieces: readonly string[];
  /** One outline around all of them. */
  readonly outline: string;
};

/** The widest a corner may point out, in half widths; sharper corners are cut. */
const longestMitre = 1.6;

/** Draws pieces of different width along one path; the width steps where air is lost. */
export const ribbonShape = (path: readonly Point[], pieces: readonly RibbonPiece[]): RibbonShape => {
  const sides = pieces.map((piece) => offsetBothSides(stretch(path, piece.from, piece.to), piece.width / 2));
  return {
    pieces: sides.map(({ left, right }) => closed([...left, ...right.toReversed()])),
    outline: closed([
      ...sides.flatMap((side) => side.left),
      ...sides.toReversed().flatMap((side) => side.right.toReversed()),
    ]),
  };
};

const offsetBothSides = (points: readonly Point[], half: number): { left: Point[]; right: Point[] } => {
  const normals = points.map((_, i) => mitre(points, i));
  return {
    left: points.map(([x, y], i) => [x + normals[i]![0] * half, y + normals[i]![1] * half]),
    right: points.map(([x, y], i) => [x - normals[i]![0] * half, y - normals[i]![1] * half]),
  };
};

const mitre = (points: readonly Point[], i: number): Point => {
  const before = normal(points[i - 1], points[i]);
  const after = normal(points[i], points[i + 1]);
  if (!before || !after) return before ?? after ?? [0, 1];
  const sum: Point = [before[0] + after[0], before[1] + after[1]];
  const length = Math.hypot(...sum);
  if (length < 1e-6) return before;
  const scale = Math.min(2 / (length * length), longestMitre / length);
  return [sum[0] * scale, sum[1] * scale];
};

const normal = (a: Point | undefined, b: Point | undefined): Point | undefined => {
  if (!a || !b) return undefined;
  const length = lengthsAlong([a, b])[1]!;
  return length === 0 ? undefined : [-(b[1] - a[1]) / length, (b[0] - a[0]) / length];
};

/** SVG path of a closed outline. */
export const closed = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${round(x)} ${round(y)}`).join('L')}Z`;

/** SVG path of an open line. */
export const open = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${round(x)} ${round(y)}`).join('L')}`;

const round = (value: number): number => Math.round(value * 100) / 100;
