import { type Dimension, parseQuantity } from '@airledger/engine';
import { ninetiethPercentile } from '@airledger/engine/numerics/normal-share';
import { parseFanPoint } from '../compound.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { type Typed, typedText } from '../typed.ts';

/** Quantity that each field of a reading holds. */
export const readingDimension = {
  flow: 'airflow',
  pressure: 'pressure',
  temperature: 'temperature',
  power: 'electricPower',
} as const satisfies Record<string, Dimension>;

/** SI value as typed, with the standard deviation that a typed range says: the value lies in it with 80 %. */
export type TypedValue = { readonly value: number; readonly deviation?: number };

/** SI value of a typed quantity; undefined when it is left out. Throws on a text that `readJob` would have refused. */
export const typedValue = (typed: Typed | undefined, dimension: Dimension): TypedValue | undefined => {
  if (typed === undefined) return undefined;
  const parsed = parseQuantity(typedText(typed), dimension);
  if ('problem' in parsed) throw new Error(`"${typedText(typed)}" ${parsed.problem}; check the job first.`);
  const { value, low, high } = parsed;
  return low === undefined || high === undefined
    ? { value }
    : { value, deviation: (high - low) / 2 / ninetiethPercentile };
};

/** The value of a reading in the field that its kind has. */
export const readingValue = (
  reading: JobReading,
  field: keyof typeof readingDimension,
): TypedValue | undefined => typedValue(reading[field], readingDimension[field]);

/** A point of a leakage test with signs as typed, SI. */
export type TypedPoint = { readonly pressure_Pa: number; readonly flow_m3s: number };

/** Points of a leakage test as typed, or the single flow at the pressure held. */
export const typedPoints = (reading: JobReading, held_Pa: number): readonly TypedPoint[] => {
  if (reading.points && reading.points.length > 0)
    return reading.points.map((text) => {
      const point = parseFanPoint(text);
      if ('problem' in point) throw new Error(`"${text}" ${point.problem}; check the job first.`);
      return { flow_m3s: point[0], pressure_Pa: point[1] };
    });
  const flow = readingValue(reading, 'flow');
  return flow ? [{ flow_m3s: flow.value, pressure_Pa: held_Pa }] : [];
};
