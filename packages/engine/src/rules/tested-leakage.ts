import type { LeakageTest, Survey } from '../survey/types.ts';
import { decides } from './known.ts';

/** Least and most that a leakage can be, as far as tests tell. */
export type Bounds = { readonly least: number; readonly most: number };

/** States that come after the house was found and changed. */
export const laterState = /^as[ -](specified|built)$/i;

/** A test of the house as found says nothing about the ducts of a later state. */
const describesState = (survey: Survey, test: LeakageTest): boolean =>
  test.stage !== 'as found' || !laterState.test(survey.state);

/** Tests of a system that were really made; a test typed in as an estimate or assumption decides nothing. */
export const realTests = (survey: Survey, system: string): readonly LeakageTest[] =>
  survey.leakageTests.filter(
    (test) =>
      test.system === system &&
      test.howKnown !== 'estimated' &&
      decides({ ...test, defaulted: false }) &&
      describesState(survey, test),
  );

/** What to say when no test decides. */
export const noTest = (survey: Survey, system: string): string => {
  const own = survey.leakageTests.filter((test) => test.system === system);
  const open = own.find(({ reading, howKnown }) => reading && howKnown === 'assumed');
  if (own.some((test) => test.howKnown !== 'assumed' && !describesState(survey, test)))
    return 'The test as found was made before the changes of this state.';
  return open
    ? `The reading "${open.id}" does not say at which pressure it was held: type it, or points like "100 cfm at 25 Pa".`
    : 'No leakage test of this system is in the survey.';
};

/** A test in words: how it is known, or the reading that it is with how sure that makes it. */
export const testWords = ({ id, howKnown, flow25_m3s, reading }: LeakageTest): string => {
  if (!reading) return howKnown;
  const share = Math.max(reading.high_m3s / flow25_m3s, flow25_m3s / reading.low_m3s) - 1;
  const day = reading.when === undefined ? '' : ` of ${reading.when.slice(0, 10)}`;
  return `${howKnown} by the reading "${id}"${day}, ± ${Math.round(100 * share)} % with 95 %`;
};

/** How far a part may seem to exceed the whole before tests contradict each other (common practice, no source). */
const testScatter = 0.1;

/**
 * Between which flows at 25 Pa (m³/s) a leakage lies, by tests of one stage. A test of just this measure gives it;
 * so do tests of one side each for both. Otherwise other tests bound it: leakage to outdoors is part of the total
 * and one side is part of both. A reading may lie anywhere in its range, so that a limit within it is not decided.
 * When a part clearly exceeds its whole, `least` comes out above `most`.
 */
export function testedLeakage(
  tests: readonly LeakageTest[],
  place: LeakageTest['place'],
  side: LeakageTest['side'],
): Bounds {
  const lowest = (fits: (test: LeakageTest) => boolean) => tests.filter(fits).map(lowOf);
  const highest = (fits: (test: LeakageTest) => boolean) => tests.filter(fits).map(highOf);
  const isPart = (test: LeakageTest) =>
    (test.place === 'outdoors' || place === 'total') && (test.side === side || side === 'both');
  const isWhole = (test: LeakageTest) =>
    (test.place === 'total' || place === 'outdoors') && (test.side === side || test.side === 'both');
  const bounds = { least: Math.max(0, ...lowest(isPart)), most: Math.min(...highest(isWhole)) };
  const own = tests.filter((test) => test.place === place && test.side === side);
  const measured = own.length > 0 ? range(own) : side === 'both' ? sumOfSides(tests, place) : undefined;
  if (!measured) return bounds;
  const contradicted =
    bounds.least > measured.most * (1 + testScatter) || bounds.most < measured.least * (1 - testScatter);
  return contradicted ? { least: Math.max(bounds.least, measured.least), most: bounds.most } : measured;
}

const lowOf = ({ flow25_m3s, reading }: LeakageTest): number => reading?.low_m3s ?? flow25_m3s;
const highOf = ({ flow25_m3s, reading }: LeakageTest): number => reading?.high_m3s ?? flow25_m3s;

const range = (tests: readonly LeakageTest[]): Bounds => ({
  least: Math.min(...tests.map(lowOf)),
  most: Math.max(...tests.map(highOf)),
});

function sumOfSides(tests: readonly LeakageTest[], place: LeakageTest['place']): Bounds | undefined {
  const sides = (['supply', 'return'] as const).map((side) =>
    tests.filter((test) => test.place === place && test.side === side),
  );
  if (sides.some((own) => own.length === 0)) return undefined;
  const [supply, back] = sides.map(range);
  return { least: supply!.least + back!.least, most: supply!.most + back!.most };
}

/** What bounds say against a limit; contradicting tests (least above most) say nothing. */
export function compareBounds({ least, most }: Bounds, limit: number): 'pass' | 'fail' | 'cannot tell' {
  if (least > most) return 'cannot tell';
  if (most <= limit) return 'pass';
  return least > limit ? 'fail' : 'cannot tell';
}

/** The one flow to show for tests whose bounds were compared: the figure, without its range, that decided. */
export const deciding = (
  tests: readonly LeakageTest[],
  place: LeakageTest['place'],
  side: LeakageTest['side'],
  result: string,
): number | undefined => {
  const figures = tests.map(({ reading: _, ...test }) => test);
  const { least, most } = testedLeakage(figures, place, side);
  const flow = result === 'pass' ? most : least;
  return Number.isFinite(flow) && flow > 0 ? flow : undefined;
};
