import type { PlanPoint } from '@airledger/engine';
import { parsePoint, parseSize } from '../compound.ts';

/** A text that the schema has let through, parsed; throws on any other. */
const sound = <T extends object>(
  text: string,
  parse: (text: string) => T | { readonly problem: string },
): T => {
  const parsed = parse(text);
  if ('problem' in parsed)
    throw new Error(`"${text}" ${parsed.problem as string}; check the job before surveying it.`);
  return parsed as T;
};

/** Point of the plan in metres, from the text of a job that the schema has let through; throws on any other. */
export const pointOf = (text: string): PlanPoint => sound(text, parsePoint);
export const sizeOf = (text: string): readonly [width_m: number, height_m: number] => sound(text, parseSize);
export const soundly = sound;

/** Corners of a room or zone in metres; empty when it is given by its area alone. */
export const outlineOf = (space: {
  readonly outline?: readonly string[];
  readonly size?: string;
  readonly corner?: string;
}): readonly PlanPoint[] => {
  if (space.outline) return space.outline.map(pointOf);
  if (space.size === undefined || space.corner === undefined) return [];
  const [x, y] = pointOf(space.corner);
  const [width, depth] = sizeOf(space.size);
  return [
    [x, y],
    [x + width, y],
    [x + width, y + depth],
    [x, y + depth],
  ];
};

/** Area inside a closed line of corners, by the shoelace formula. */
export const areaInside = (outline: readonly PlanPoint[]): number => {
  let twice = 0;
  for (let i = 0; i < outline.length; i++) {
    const [x1, y1] = outline[i]!;
    const [x2, y2] = outline[(i + 1) % outline.length]!;
    twice += x1 * y2 - x2 * y1;
  }
  return Math.abs(twice) / 2;
};

/** Floor area as the plan gives it; undefined when there is none. */
export const planArea = (space: Parameters<typeof outlineOf>[0]): number | undefined => {
  if (space.outline) return areaInside(outlineOf(space));
  if (space.size === undefined) return undefined;
  const [width, depth] = sizeOf(space.size);
  return width * depth;
};
