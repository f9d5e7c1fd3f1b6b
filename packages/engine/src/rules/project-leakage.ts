import type { SystemStanding } from '../account/types.ts';
import type { AirSystem, LeakageTest, Survey } from '../survey/types.ts';
import { compareBounds, deciding, noTest, realTests, testedLeakage, testWords } from './tested-leakage.ts';
import type { Check } from './types.ts';

/**
 * The project's own limit: tested total leakage at 25 Pa of each side as a share of the fan's flow.
 * Rough-in tests leave out boots and often the air handler, so only finished ducts count.
 */
export function projectLeakage(
  survey: Survey,
  system: AirSystem,
  standing: SystemStanding,
): readonly Check[] {
  const finished = realTests(survey, system.id).filter(({ stage }) => !stage.startsWith('rough-in'));
  const latest = finished.some(({ stage }) => stage === 'after construction')
    ? 'after construction'
    : 'as found';
  const tests = finished.filter(({ stage }) => stage === latest);
  const untested = noTest(survey, system.id);
  return (['supply', 'return'] as const).map((side) => {
    const limit = side === 'supply' ? survey.code.supplyLeakageLimit : survey.code.returnLeakageLimit;
    const bounds = testedLeakage(tests, 'total', side);
    const fanRuns = standing.fanFlow_m3s > 0;
    const result = fanRuns ? compareBounds(bounds, limit * standing.fanFlow_m3s) : 'cannot tell';
    const flow = fanRuns ? deciding(tests, 'total', side, result) : undefined;
    const value = flow === undefined ? undefined : flow / standing.fanFlow_m3s;
    return {
      id: `specification-leakage-${system.id}-${side}`,
      group: 'specification',
      title: `Leakage of the ${side} side against fan flow`,
      result,
      subject: system.id,
      quantity: 'share of fan flow',
      value,
      limit,
      margin: value === undefined ? undefined : limit - value,
      sense: 'at most',
      clause: 'Project specification',
      source: 'the limit set in the job',
      evidence: evidence(result, side, latest, tests, fanRuns, untested),
      ...(result === 'fail' && {
        remedy: `Seal the ${side} side, the places at the highest pressure first, and test again.`,
      }),
    };
  });
}

function evidence(
  result: Check['result'],
  side: string,
  stage: string,
  tests: readonly LeakageTest[],
  fanRuns: boolean,
  untested: string,
): string {
  if (!fanRuns) return 'The fan moves no air in this account, so there is no flow to compare with.';
  const settle = `A test of the ${side} side alone at 25 Pa, with the finished ducts, would settle it.`;
  if (tests.length === 0) return `${untested} ${settle}`;
  const own = tests.filter((test) => test.side === side && test.place === 'total');
  const by = (own.length > 0 ? own : tests).map(testWords).join('; ');
  const said = `By the test ${stage} (${by}), against the fan flow of the account.`;
  return result === 'cannot tell' ? `${said} It does not decide for this side. ${settle}` : said;
}
