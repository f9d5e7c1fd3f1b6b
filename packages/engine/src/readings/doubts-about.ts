import type { Survey } from '../survey/types.ts';
import type { UnitSystem } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { crossDoubts } from './cross-doubts.ts';
import { type Doubt, doubt } from './doubt.ts';
import { expectedRange } from './expected-range.ts';
import { subjectDimension, subjectName } from './subject-name.ts';
import { typedWrong } from './typed-wrong.ts';
import { isShown, type Reading, type ReadingSubject } from './types.ts';

/**
 * What may be wrong with readings of one state, as they are typed: impossible, unlikely, a wrong unit or sign,
 * repeated, or against each other. Needs no calibration, so it answers at once; every reading is kept.
 * @param units of the messages
 */
export function doubtsAbout(
  readings: readonly Reading[],
  survey: Survey,
  units: UnitSystem,
): readonly Doubt[] {
  const single = readings.flatMap((reading) => ownDoubt(reading, survey, units) ?? []);
  // What is doubted by itself is not held against others.
  const doubted = new Set(single.filter(({ kind }) => kind !== 'unlikely').map(({ readings: [id] }) => id));
  return [
    ...single,
    ...crossDoubts(
      readings.filter(({ id }) => !doubted.has(id)),
      survey,
      units,
    ),
  ];
}

function ownDoubt(reading: Reading, survey: Survey, units: UnitSystem): Doubt | undefined {
  const { id, subject, value, accuracy } = reading;
  const range = expectedRange(survey, reading);
  if (!range) return undefined;
  const dimension = subjectDimension(subject);
  const show = (si: number) => shown(si, subject, units);
  const place = subjectName(survey, subject);
  const outside = ([least, most]: readonly [number, number], slack: number) =>
    value < least - slack || value > most + slack;
  const isImpossible = outside(range.possible, 3 * accuracy);
  if (!isImpossible && !outside(range.likely, accuracy)) return undefined;
  const [least, most] = isImpossible ? range.possible : range.likely;
  const expected = `${show(least)} to ${show(most)}`;
  // A value worked out from several has no unit of its own to be typed wrong.
  const slip = isShown(reading) ? typedWrong(value, dimension, range) : undefined;
  if (slip)
    return doubt(
      slip.kind,
      [id],
      place,
      show(value),
      expected,
      `Then it would be ${show(slip.meant)}: ${slip.words}. Check, and type it anew.`,
    );
  return doubt(
    isImpossible ? 'impossible' : 'unlikely',
    [id],
    place,
    show(value),
    expected,
    isImpossible
      ? isShown(reading)
        ? 'Read it again; look at unit, range, hose and place.'
        : 'Look at each value that it is worked out from, and its unit.'
      : 'Read it again to be sure; it is used as it stands.',
  );
}

/** A value in the units asked for; pressures of pans and rooms in Pa, as gauges show them. */
const shown = (si: number, subject: ReadingSubject, units: UnitSystem): string =>
  subject.kind === 'pressure pan' || subject.kind === 'room pressure'
    ? formatQuantity(si, 'pressure', 'si')
    : formatQuantity(si, subjectDimension(subject), units);
