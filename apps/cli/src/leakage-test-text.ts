import { formatQuantity, type Survey, type UnitSystem } from '@airledger/engine';
import type { LeakageResults, LeakageVerdict } from '@airledger/engine/leakage-test/types';
import { sureWords, verdictWords } from '@airledger/report/leakage-test-words';
import { nameOf } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { wrap } from './wrap.ts';

const indent = '      ';

/** What leakage tests come to, and how surely they are within limits; nothing when none was made. */
export const leakageTestText = (
  results: readonly LeakageResults[],
  survey: Survey,
  units: UnitSystem,
): readonly string[] =>
  results.map((result) => {
    const rows = result.tests.map(({ sheet, fit, perFloorArea, perFanFlow }) => [
      `${sheet.to === 'total' ? 'total' : 'to outdoors'}${sheet.side === 'both' ? '' : `, ${sheet.side}`}`,
      formatQuantity(fit.flow25_m3s, 'airflow', units),
      `${formatQuantity(fit.low_m3s, 'airflow', units).split(' ')[0]} to ${formatQuantity(fit.high_m3s, 'airflow', units)}`,
      `${fit.exponent.toFixed(2)}${fit.exponentStanding === 'plausible' ? '' : ` ${fit.exponentStanding}`}`,
      formatQuantity(perFloorArea, 'airflowPerArea', units, 2),
      formatQuantity(perFanFlow, 'ratio', units, 1),
    ]);
    const columns = [
      left('Leakage'),
      right('at 25 Pa'),
      right('95 % range'),
      right('exponent'),
      right('per floor area'),
      right('of fan flow'),
    ];
    return [
      `${paint('bold', `Leakage tests, ${nameOf(survey)(result.system)}`)}\n${table(columns, rows)}`,
      ...result.verdicts.map((verdict) => verdictText(verdict, units)),
      ...result.doubts.map(({ message }) => `  ${paint('yellow', 'DOUBTFUL')}\n${wrap(message, indent)}`),
    ].join('\n\n');
  });

const verdictText = (verdict: LeakageVerdict, units: UnitSystem): string => {
  const result = verdict.judged?.result ?? 'not tested';
  const style = result === 'fail' ? 'red' : result === 'pass' ? 'green' : 'yellow';
  return [
    `  ${paint(style, result.toUpperCase())}  ${verdict.title}`,
    wrap(verdictWords(verdict, units), indent),
    wrap(`${verdict.judged ? `${sureWords(verdict.judged)} ` : ''}${verdict.evidence}`, indent),
  ].join('\n');
};
