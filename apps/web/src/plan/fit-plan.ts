import { boxAround, type Point } from './geometry.ts';

export type Space = { readonly width: number; readonly height: number };

/** How metres on the plan become places on the screen. */
export type PlanFit = {
  /** Screen units for each metre. */
  readonly scale: number;
  /** Smaller side of the drawn plan on the screen. */
  readonly smaller: number;
  readonly toScreen: (point: Point) => Point;
  /** Where the zoom buttons have their strip, so that they cover nothing. */
  readonly buttons: 'beside' | 'below';
};

const margin = 12;
/** Strip that the zoom buttons need, along one side. */
const strip = 44;

/** Fits points into a space as large as they go, north up, with a strip left for the zoom buttons. */
export const fitPlan = (points: readonly Point[], space: Space): PlanFit => {
  if (points.length === 0) return { scale: 1, smaller: 0, toScreen: (point) => point, buttons: 'beside' };
  const around = boxAround(points);
  const scaleIn = (width: number, height: number) =>
    Math.max(
      1e-3,
      Math.min(
        (width - 2 * margin) / Math.max(around.width, 1e-6),
        (height - 2 * margin) / Math.max(around.height, 1e-6),
      ),
    );
  const beside = scaleIn(space.width - strip, space.height);
  const below = scaleIn(space.width, space.height - strip);
  const scale = Math.max(beside, below);
  const buttons = beside >= below ? 'beside' : 'below';
  const left = (space.width - (buttons === 'beside' ? strip : 0) - around.width * scale) / 2;
  const top = (space.height - (buttons === 'below' ? strip : 0) - around.height * scale) / 2;
  return {
    scale,
    smaller: scale * Math.min(around.width, around.height),
    // North is up on the plan, and down is where the screen counts to.
    toScreen: ([x, y]) => [left + (x - around.x) * scale, top + (around.y + around.height - y) * scale],
    buttons,
  };
};
