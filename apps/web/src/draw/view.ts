import type { PlanPoint } from '@airledger/engine';

/** How the drawing lies on the screen: pixels for each metre, and where the origin of the plan is. North is up. */
export type View = { readonly scale: number; readonly x: number; readonly y: number };
export type Size = { readonly width: number; readonly height: number };

const least = 2;
const most = 600;

export const toScreen = ({ scale, x, y }: View, [east, north]: PlanPoint): PlanPoint => [
  x + east * scale,
  y - north * scale,
];

export const toPlan = ({ scale, x, y }: View, [px, py]: PlanPoint): PlanPoint => [
  (px - x) / scale,
  (y - py) / scale,
];

export const panned = (view: View, dx: number, dy: number): View => ({
  ...view,
  x: view.x + dx,
  y: view.y + dy,
});

/** Closer (factor above 1) or farther; the place of the plan under a point of the screen stays there. */
export const zoomed = (view: View, factor: number, [px, py]: PlanPoint): View => {
  const scale = Math.min(most, Math.max(least, view.scale * factor));
  const ratio = scale / view.scale;
  return { scale, x: px - (px - view.x) * ratio, y: py - (py - view.y) * ratio };
};

/** Shows all of some points as large as they go, with room around them; without points a usual house would fit. */
export const fitted = (points: readonly PlanPoint[], size: Size): View => {
  const shown: readonly PlanPoint[] =
    points.length > 0
      ? points
      : [
          [0, 0],
          [15, 10],
        ];
  const xs = shown.map(([x]) => x);
  const ys = shown.map(([, y]) => y);
  const [west, east] = [Math.min(...xs), Math.max(...xs)];
  const [south, north] = [Math.min(...ys), Math.max(...ys)];
  const scale = Math.min(
    160,
    Math.max(
      least,
      Math.min((size.width - 70) / Math.max(east - west, 1), (size.height - 60) / Math.max(north - south, 1)),
    ),
  );
  return {
    scale,
    x: size.width / 2 - ((west + east) / 2) * scale,
    y: size.height / 2 + ((south + north) / 2) * scale,
  };
};
