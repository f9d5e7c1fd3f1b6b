import type { AirSystem, LeakageTest, Survey } from '../survey/types.ts';
import {
  allowedLeakage,
  type CodeEdition,
  type CodeStage,
  type LeakageRow,
  leakageRows,
} from './code-edition.ts';
import { isWhollyInside } from './envelope.ts';
import { servedFloorArea } from './served-floor-area.ts';
import { compareBounds, deciding, noTest, realTests, testedLeakage, testWords } from './tested-leakage.ts';
import type { Check } from './types.ts';

const base = { group: 'code', quantity: 'leakage per floor area', sense: 'at most' } as const;

/** Latest first: it says most about the ducts as they are. */
const stages: readonly LeakageTest['stage'][] = [
  'after construction',
  'as found',
  'rough-in with air handler',
  'rough-in without air handler',
];

const codeStage = (stage: LeakageTest['stage']): CodeStage =>
  stage === 'as found' ? 'after construction' : stage;

/**
 * Duct leakage of one system against an energy code, by the latest test there is. Only a real test can pass or
 * fail; where the code offers alternative limits one of them is enough.
 */
export function codeLeakage(survey: Survey, system: AirSystem, edition: CodeEdition): Check {
  const inside = isWhollyInside(survey, system);
  const common = { ...base, id: `code-leakage-${system.id}`, subject: system.id };
  const { insideEnvelope } = edition;
  if (inside && insideEnvelope.leakageTest === 'exempt')
    return {
      ...common,
      title: 'Duct leakage',
      result: 'exempt',
      clause: `${edition.edition} ${insideEnvelope.clause}`,
      source: insideEnvelope.source,
      evidence: 'All ducts and the air handler are inside the thermal envelope.',
    };
  const tests = realTests(survey, system.id);
  const stage = stages.find((one) => tests.some((test) => test.stage === one));
  const area_m2 = servedFloorArea(survey, system);
  const rows = leakageRows(
    edition,
    codeStage(stage ?? 'after construction'),
    inside ? 'inside envelope' : 'outside envelope',
    system.parts.filter((part) => part.side === 'return' && part.terminal).length,
  );
  const ofStage = tests.filter((test) => test.stage === stage);
  return {
    ...common,
    ...best(rows.map((row) => judge(row, ofStage, stage, area_m2, edition, noTest(survey, system.id)))),
  };
}

type Judged = Omit<Check, 'id' | 'group' | 'subject' | 'quantity' | 'sense'>;

function judge(
  row: LeakageRow,
  tests: readonly LeakageTest[],
  stage: LeakageTest['stage'] | undefined,
  area_m2: number,
  edition: CodeEdition,
  untested: string,
): Judged {
  const what = row.place === 'total' ? 'total leakage' : 'leakage to outdoors';
  const allowed = allowedLeakage(row, area_m2);
  const bounds = testedLeakage(tests, row.place, 'both');
  const result = compareBounds(bounds, allowed);
  const flow = deciding(tests, row.place, 'both', result);
  const limit = allowed / area_m2;
  const value = flow === undefined ? undefined : flow / area_m2;
  return {
    title: `Duct leakage: ${what} ${row.stage}`,
    result,
    value,
    limit,
    margin: value === undefined ? undefined : limit - value,
    clause: `${edition.edition} ${row.clause}`,
    source: row.source,
    evidence: evidence(result, what, row, tests, stage, untested),
    ...(result === 'fail' && {
      remedy: 'Seal the ducts, the places at the highest pressure first, and test again.',
    }),
  };
}

function evidence(
  result: Check['result'],
  what: string,
  row: LeakageRow,
  tests: readonly LeakageTest[],
  stage: LeakageTest['stage'] | undefined,
  untested: string,
): string {
  const settle = `A test of ${what} of the whole system at 25 Pa, ${row.stage}, would settle it.`;
  if (stage === undefined) return `${untested} ${settle}`;
  const made = tests.map((test) => {
    const { place, side } = test;
    const of = side === 'both' ? '' : ` of the ${side} side`;
    return `${place === 'total' ? 'total leakage' : 'leakage to outdoors'}${of}, ${testWords(test)}`;
  });
  const said = `By the test ${stage}: ${made.join('; ')}.`;
  return result === 'cannot tell' ? `${said} It does not decide. ${settle}` : said;
}

/** One alternative that passes is enough; a fail needs them all. */
function best(judged: readonly Judged[]): Judged {
  const passed = judged.find(({ result }) => result === 'pass');
  if (passed) return passed;
  const open = judged.find(({ result }) => result === 'cannot tell');
  const failed = judged.find(({ result }) => result === 'fail');
  if (open && failed)
    return {
      ...failed,
      result: 'cannot tell',
      evidence: `${failed.evidence} That is above its limit, but the code accepts either. ${open.evidence}`,
    };
  return open ?? failed!;
}
