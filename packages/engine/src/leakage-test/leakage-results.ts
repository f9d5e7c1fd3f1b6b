import { allowedLeakage, codeEdition, leakageRows } from '../rules/code-edition.ts';
import { isWhollyInside } from '../rules/envelope.ts';
import { servedFloorArea } from '../rules/served-floor-area.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import type { UnitSystem } from '../units/dimension.ts';
import { fitLeakageTest } from './fit-leakage-test.ts';
import { leakageTestDoubts } from './leakage-test-doubts.ts';
import { fanFlowLimit, judgeLeakage, perFanFlow, perFloorArea } from './measured-leakage.ts';
import type { FanFlow, LeakageResults, LeakageSheet, LeakageTestResult, LeakageVerdict } from './types.ts';

/** Latest first: it says most about the ducts as they are. */
const stages = [
  'after construction',
  'as found',
  'rough-in with air handler',
  'rough-in without air handler',
] as const;

/**
 * What the leakage tests of a house come to, by system: flow at 25 Pa with its range, per floor area and per fan
 * flow, and how surely it is within the limits of the energy code and of the project.
 * @param fans fan flow of each system that leakage is compared with
 */
export function leakageResults(
  survey: Survey,
  sheets: readonly LeakageSheet[],
  fans: Readonly<Record<string, FanFlow>>,
  units: UnitSystem,
): readonly LeakageResults[] {
  return survey.systems.flatMap((system) => {
    const fan = fans[system.id];
    const own = sheets.filter((sheet) => sheet.system === system.id && sheet.points.length > 0);
    return fan && own.length > 0 ? [resultsOf(survey, system, own, fan, units)] : [];
  });
}

function resultsOf(
  survey: Survey,
  system: AirSystem,
  sheets: readonly LeakageSheet[],
  fan: FanFlow,
  units: UnitSystem,
): LeakageResults {
  const floorArea_m2 = servedFloorArea(survey, system);
  const tests = sheets.map((sheet): LeakageTestResult => {
    const fit = fitLeakageTest(sheet.points, sheet.instrumentError, sheet.density_kgm3);
    return {
      sheet,
      fit,
      perFloorArea: perFloorArea(fit, floorArea_m2).value,
      perFanFlow: perFanFlow(fit, fan).value,
    };
  });
  const stage = stages.find((one) => tests.some(({ sheet }) => sheet.stage === one))!;
  const latest = tests.filter(({ sheet }) => sheet.stage === stage);
  return {
    system: system.id,
    fan,
    floorArea_m2,
    tests,
    verdicts: [
      ...codeVerdicts(survey, system, latest, stage, floorArea_m2),
      ...(['supply', 'return'] as const).map((side) => projectVerdict(survey, side, latest, stage, fan)),
    ],
    doubts: leakageTestDoubts(system, tests, units),
  };
}

/** The test that a limit speaks of, the most certain where it was made twice. */
const testOf = (
  tests: readonly LeakageTestResult[],
  to: LeakageSheet['to'],
  side: LeakageSheet['side'],
): LeakageTestResult | undefined =>
  tests
    .filter(({ sheet }) => sheet.to === to && sheet.side === side)
    .toSorted((a, b) => a.fit.relativeError - b.fit.relativeError)[0];

function codeVerdicts(
  survey: Survey,
  system: AirSystem,
  tests: readonly LeakageTestResult[],
  stage: LeakageSheet['stage'],
  floorArea_m2: number,
): readonly LeakageVerdict[] {
  const edition = codeEdition(survey.code.edition);
  if (!edition) return [];
  const inside = isWhollyInside(survey, system);
  if (inside && edition.insideEnvelope.leakageTest === 'exempt') return [];
  const rows = leakageRows(
    edition,
    stage === 'as found' ? 'after construction' : stage,
    inside ? 'inside envelope' : 'outside envelope',
    system.parts.filter((part) => part.side === 'return' && part.terminal).length,
  );
  return rows.map((row): LeakageVerdict => {
    const allowed_m3s = allowedLeakage(row, floorArea_m2);
    const limit = { per: 'conditioned floor area', value: allowed_m3s / floorArea_m2 } as const;
    const test = testOf(tests, row.place, 'both');
    const what = row.place === 'total' ? 'total leakage' : 'leakage to outdoors';
    return {
      id: `code-${row.place}`,
      title: `${edition.edition}: ${what} ${row.stage}`,
      to: row.place,
      side: 'both',
      per: limit.per,
      allowed_m3s,
      limit: limit.value,
      clause: row.clause,
      source: row.source,
      ...(test && {
        judged: judged(test, judgeLeakage(perFloorArea(test.fit, floorArea_m2), limit), allowed_m3s),
      }),
      evidence: test
        ? `By the test ${stage} "${test.sheet.id}".`
        : `A test of ${what} of the whole system at 25 Pa would tell.`,
    };
  });
}

function projectVerdict(
  survey: Survey,
  side: 'supply' | 'return',
  tests: readonly LeakageTestResult[],
  stage: LeakageSheet['stage'],
  fan: FanFlow,
): LeakageVerdict {
  const share = side === 'supply' ? survey.code.supplyLeakageLimit : survey.code.returnLeakageLimit;
  const limit = fanFlowLimit(share);
  // Rough-in tests leave out boots and often the air handler, so only finished ducts count.
  const test = stage.startsWith('rough-in') ? undefined : testOf(tests, 'total', side);
  const allowed_m3s = share * fan.flow_m3s;
  return {
    id: `project-${side}`,
    title: `Project: leakage of the ${side} side`,
    to: 'total',
    side,
    per: limit.per,
    allowed_m3s,
    limit: share,
    clause: 'Project specification',
    source: 'the limit set in the job',
    ...(test && { judged: judged(test, judgeLeakage(perFanFlow(test.fit, fan), limit), allowed_m3s) }),
    evidence: test
      ? `By the test ${stage} "${test.sheet.id}", against the fan flow ${fan.source}.`
      : `A test of the ${side} side alone at 25 Pa, with the finished ducts, would tell.`,
  };
}

const judged = (
  { fit }: LeakageTestResult,
  result: ReturnType<typeof judgeLeakage>,
  allowed_m3s: number,
): NonNullable<LeakageVerdict['judged']> => ({
  ...result,
  flow25_m3s: fit.flow25_m3s,
  figureWithin: fit.flow25_m3s <= allowed_m3s,
});
