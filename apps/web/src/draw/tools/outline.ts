import type { PlanPoint } from '@airledger/engine';
import type { Deed, Preview, Step, Tool, ToolContext, ToolEvent } from '../tool.ts';

export type LineState = { readonly points: readonly PlanPoint[] };

/** Points nearer to each other than this are one: a double click, or Enter twice. */
export const samePoint_m = 0.05;

const distance = (a: PlanPoint, b: PlanPoint): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Next point of a line by its length and direction; what is not typed is as the pointer has it. */
const typedPoint = (
  last: PlanPoint,
  pointer: PlanPoint,
  [length_m, angle]: readonly (number | undefined)[],
): PlanPoint => {
  const towards = Math.atan2(pointer[1] - last[1], pointer[0] - last[0]);
  const turn = angle === undefined ? towards : (angle * Math.PI) / 180;
  const length = length_m ?? distance(last, pointer);
  return [last[0] + length * Math.cos(turn), last[1] + length * Math.sin(turn)];
};

/** Points of a line one after another; `finish` is asked when the last is clicked again, or a closed line's first. */
export const onLine = (
  state: LineState,
  event: ToolEvent,
  closes: boolean,
  finish: (points: readonly PlanPoint[]) => Step<LineState>,
): Step<LineState> => {
  const { points } = state;
  const last = points.at(-1);
  switch (event.kind) {
    case 'cancel':
      return { state: { points: [] } };
    case 'back':
      return { state: { points: points.slice(0, -1) } };
    case 'typed': {
      const [first, second] = event.values;
      if (last) return { state: { points: [...points, typedPoint(last, event.place.at, event.values)] } };
      return first === undefined || second === undefined
        ? { state, note: 'Type both distances from the origin.' }
        : { state: { points: [[first, second]] } };
    }
    case 'press': {
      const { at } = event.place;
      const again = last !== undefined && distance(last, at) < samePoint_m;
      const closing = closes && points.length >= 3 && distance(points[0]!, at) < samePoint_m;
      if (again || closing) return finish(points);
      return { state: { points: [...points, at] } };
    }
    default:
      return { state };
  }
};

export const linePreview = ({ points }: LineState, at: PlanPoint | undefined): Preview => {
  const last = points.at(-1);
  if (!last) return {};
  return {
    line: at ? [...points, at] : points,
    dots: points,
    measures: at ? [{ from: last, to: at }] : [],
  };
};

export const lineFields: NonNullable<Tool<LineState>['fields']> = ({ points }) =>
  points.length > 0
    ? [
        { label: 'Length', dimension: 'length' },
        { label: 'Direction', dimension: 'angle' },
      ]
    : [
        { label: 'East', dimension: 'length' },
        { label: 'North', dimension: 'length' },
      ];

/** A tool that draws a closed line, corner by corner. */
export const outlineTool = (
  what: string,
  deed: (points: readonly PlanPoint[], context: ToolContext) => Deed,
): Tool<LineState> => ({
  start: { points: [] },
  on: (state, event, context) =>
    onLine(state, event, true, (points) =>
      points.length < 3
        ? { state, note: 'It takes three corners at least.' }
        : { state: { points: [] }, deed: deed(points, context) },
    ),
  preview: (state, place) => {
    const { line, ...rest } = linePreview(state, place?.at);
    return { ...rest, ...(line && { outline: line }) };
  },
  hint: ({ points }) =>
    points.length === 0
      ? `Click the first corner of the ${what}.`
      : points.length < 3
        ? 'Click the next corner, or type its distance. Backspace takes the last back.'
        : 'Click the first corner, or the last once more, to close it.',
  fields: lineFields,
  from: ({ points }) => points.at(-1),
  last: ({ points }) => points.at(-1),
});
