import { formatQuantity, type Survey, type UnitSystem } from '@airledger/engine';
import type {
  Alike,
  Calibration,
  ContradictedReading,
  Knowledge,
  LeakFinding,
  LeakGroupFinding,
  LikelySlip,
  Range,
} from '@airledger/engine/calibrate/calibration';
import type { ReadingCost } from '@airledger/engine/calibrate/rank-readings';
import { subjectDimension, subjectName } from '@airledger/engine/readings/subject-name';
import type { Reading } from '@airledger/engine/readings/types';
import { nameOf } from './place-names.ts';

/** How far readings have narrowed a figure, in words that stand beside its range. */
export const knowledgeWords: Readonly<Record<Knowledge, string>> = {
  'not measured': 'not measured',
  vague: 'vague',
  measured: 'measured',
};

/** Name of a place that may leak: "Kitchen run: boot". */
export const leakPlaceName = (survey: Survey, { part, kind }: LeakFinding): string =>
  part === undefined ? 'Air handler: cabinet' : `${nameOf(survey)(part)}: ${kind.replace(/^return /, '')}`;

/** Name of places that readings cannot tell apart. */
export const leakGroupName = (survey: Survey, { id, kind }: LeakGroupFinding): string => {
  switch (kind) {
    case 'run':
      return `${nameOf(survey)(id)}: boot and takeoff`;
    case 'trunk':
      return `${nameOf(survey)(id)}: joints and seams`;
    case 'supply plenum':
      return 'Supply plenum';
    case 'cabinet':
      return 'Air handler: cabinet';
    case 'return':
      return 'Return side';
  }
};

/** What a doubted reading may be, as the end of "It may be …". */
export const slipWords = (survey: Survey, reading: Reading, slip: LikelySlip, units: UnitSystem): string => {
  const show = (value: number) => formatQuantity(value, subjectDimension(reading.subject), units);
  switch (slip.kind) {
    case 'unit':
      return `${slip.meant} typed as ${slip.shown}, which makes it ${show(slip.value)}`;
    case 'sign':
      return `the hoses swapped, which makes it ${show(slip.value)}`;
    case 'factor of ten':
      return `a digit too few or too many, which makes it ${show(slip.value)}`;
    case 'hose':
      return 'a hose that has slipped off or is kinked';
    case 'restricted run':
      return `true, because ${nameOf(survey)(slip.part)} is restricted (${formatQuantity(slip.probability, 'ratio', units, 0)} likely)`;
  }
};

/** A doubted reading as a question: what it shows, what the others foretell, what it may be, what to do. */
export const doubtQuestion = (
  survey: Survey,
  reading: Reading,
  doubt: ContradictedReading,
  units: UnitSystem,
): {
  readonly title: string;
  readonly text: string;
  readonly mayBe: readonly string[];
  readonly remedy: string;
} => {
  const show = (value: number) => formatQuantity(value, subjectDimension(reading.subject), units);
  const name = subjectName(survey, reading.subject);
  return {
    title: `Is the ${name} right?`,
    text: `It shows ${show(reading.value)}; the other readings foretell ${show(doubt.foretold)}, give or take ${show(doubt.foretoldSd).replace(/^-/, '')}.`,
    mayBe: doubt.slips.map((slip) => slipWords(survey, reading, slip, units)),
    remedy: 'Read it again. Until then it is kept on its sheet and left out of the answer.',
  };
};

/** Readings that did not help to find where the air goes, each with why. */
export const notUsed = (
  survey: Survey,
  readings: readonly Reading[],
  { unused }: Calibration,
): readonly string[] =>
  unused.flatMap(({ reading: id, why }) => {
    const reading = readings.find((one) => one.id === id);
    return reading ? [`${subjectName(survey, reading.subject)}: ${why}`] : [];
  });

/** Places of which one is defective and the readings do not say which. */
export const alikeWords = (survey: Survey, { places }: Alike): string => {
  const words = places.map((place) => unknownName(survey, place));
  return `The readings do not tell ${words[0]} from ${words[1]}: treat them as one.`;
};

const kinds: Readonly<Record<string, string>> = {
  slack: 'the flex',
  damper: 'the takeoff or damper',
  register: 'the register',
};

/** Name of an unknown of the estimator: "leak run-4/boot", "slack run-4". */
const unknownName = (survey: Survey, id: string): string => {
  const [kind = '', place = ''] = id.split(/ (.*)/s);
  const [part = '', spot] = place.split('/');
  const name = nameOf(survey)(part);
  return spot === undefined ? `${kinds[kind] ?? kind} of ${name}` : `the ${spot} of ${name}`;
};

/** Sums in words, those that the house has. */
export const totalsOf = ({
  totals,
}: Calibration): readonly { readonly words: string; readonly range: Range }[] => {
  const rows: readonly (readonly [string, Range | undefined])[] = [
    ['Fan moves', totals.fanFlow_m3s],
    ['Total leakage at 25 Pa', totals.total25_m3s],
    ['Leakage to outdoors at 25 Pa', totals.outdoors25_m3s],
    ['Supply side at 25 Pa', totals.supply25_m3s],
    ['Return side at 25 Pa', totals.return25_m3s],
    ['Supply leaks beyond the envelope, running', totals.supplyOutdoors_m3s],
    ['Return leaks from beyond the envelope, running', totals.returnOutdoors_m3s],
  ];
  return rows.flatMap(([words, range]) => (range ? [{ words, range }] : []));
};

/** What a reading that could be taken is worth: "2 min, with the blower door set up (20 min): 34 % less unsure". */
export const worthWords = (
  { minutes, setUp }: ReadingCost,
  narrowing: number,
  ready: readonly string[],
): string => {
  const owed =
    setUp && !ready.includes(setUp.name) ? ` and ${setUp.minutes} min to set up the ${setUp.name}` : '';
  return `${minutes} min${owed}; takes ${Math.round(narrowing * 100)} % of the doubt away`;
};
