import type { LeakageTest, Survey } from '../survey/types.ts';
import { decides } from './known.ts';

export type Bounds = { readonly least: number; readonly most: number };

/** Tests of a system that were really made; a test typed in as an estimate or assumption decides nothing. */
export const realTests = (survey: Survey, system: string): readonly LeakageTest[] =>
  survey.leakageTests.filter(
    (test) =>
      test.system === system && test.howKnown !== 'estimated' && decides({ ...test, defaulted: false }),
  );

/**
 * Between which flows at 25 Pa (m³/s) a leakage lies, by tests of one stage. Leakage to outdoors is part of the
 * total and one side is part of both, so every test bounds every other measure: with the very test both ends meet.
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
  if (side !== 'both') return bounds;
  const [supply, back] = (['supply', 'return'] as const).map((one) => testedLeakage(tests, place, one));
  return {
    least: Math.max(bounds.least, supply!.least + back!.least),
    most: Math.min(bounds.most, supply!.most + back!.most),
  };
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
