import type { LeakageTest, Survey } from '../survey/types.ts';
import { decides } from './known.ts';

/** Least and most that a leakage can be, as far as tests tell. */
export type Bounds = { readonly least: number; readonly most: number };

/** States that come after the house was found and changed. */
const laterState = /^as[ -](specified|built)$/i;

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
export const noTest = (survey: Survey, system: string): string =>
  survey.leakageTests.some((test) => test.system === system && !describesState(survey, test))
    ? 'The test as found was made before the changes of this state.'
    : 'No leakage test of this system is in the survey.';

/** How far a part may seem to exceed the whole before tests contradict each other (common practice, no source). */
const testScatter = 0.1;

/**
 * Between which flows at 25 Pa (m³/s) a leakage lies, by tests of one stage. A test of just this measure gives it;
 * so do tests of one side each for both. Otherwise other tests bound it: leakage to outdoors is part of the total
 * and one side is part of both. When a part clearly exceeds its whole, `least` comes out above `most`.
 */
export function testedLeakage(
  tests: readonly LeakageTest[],
  place: LeakageTest['place'],
  side: LeakageTest['side'],
): Bounds {
  const flows = (fits: (test: LeakageTest) => boolean) => tests.filter(fits).map((test) => test.flow25_m3s);
  const isPart = (test: LeakageTest) =>
    (test.place === 'outdoors' || place === 'total') && (test.side === side || side === 'both');
  const isWhole = (test: LeakageTest) =>
    (test.place === 'total' || place === 'outdoors') && (test.side === side || test.side === 'both');
  const bounds = { least: Math.max(0, ...flows(isPart)), most: Math.min(...flows(isWhole)) };
  const own = flows((test) => test.place === place && test.side === side);
  const measured = own.length > 0 ? range(own) : side === 'both' ? sumOfSides(tests, place) : undefined;
  if (!measured) return bounds;
  const contradicted =
    bounds.least > measured.most * (1 + testScatter) || bounds.most < measured.least * (1 - testScatter);
  return contradicted ? { least: Math.max(bounds.least, measured.least), most: bounds.most } : measured;
}

const range = (flows: readonly number[]): Bounds => ({ least: Math.min(...flows), most: Math.max(...flows) });

function sumOfSides(tests: readonly LeakageTest[], place: LeakageTest['place']): Bounds | undefined {
  const sides = (['supply', 'return'] as const).map((side) =>
    tests.filter((test) => test.place === place && test.side === side).map((test) => test.flow25_m3s),
  );
  if (sides.some((flows) => flows.length === 0)) return undefined;
  const [supply, back] = sides.map(range);
  return { least: supply!.least + back!.least, most: supply!.most + back!.most };
}

/** What bounds say against a limit; contradicting tests (least above most) say nothing. */
export function compareBounds({ least, most }: Bounds, limit: number): 'pass' | 'fail' | 'cannot tell' {
  if (least > most) return 'cannot tell';
  if (most <= limit) return 'pass';
  return least > limit ? 'fail' : 'cannot tell';
}

/** The one flow to show for bounds that were compared: the end that decided. */
export const deciding = ({ least, most }: Bounds, result: string): number | undefined => {
  const flow = result === 'pass' ? most : least;
  return Number.isFinite(flow) && flow > 0 ? flow : undefined;
};
