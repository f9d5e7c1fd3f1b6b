import { probabilityPasses } from '@airledger/engine/calibrate/probability-passes';
import { fanFlowsOf } from '@airledger/engine/leakage-test/fan-flow-of';
import { leakageResults } from '@airledger/engine/leakage-test/leakage-results';
import type { LeakageResults, LeakageVerdict } from '@airledger/engine/leakage-test/types';
import { sureWords, verdictWords } from '@airledger/report/leakage-test-words';
import { useFormat } from '../figure/use-format.ts';
import { useAccount, useBaseSurvey } from '../state/select.ts';
import { useFindings } from './findings-store.ts';
import { useReadings } from './use-readings.ts';

/** What the leakage tests come to: at 25 Pa with range, per floor area and fan flow, and whether limits are met. */
export const Results = () => {
  const survey = useBaseSurvey();
  const account = useAccount();
  const read = useReadings();
  const { units } = useFormat();
  if (!survey || !account || !read) return null;
  const results = leakageResults(survey, read.sheets, fanFlowsOf(read.readings, account.systems), units);
  if (results.length === 0)
    return (
      <p className="quiet">No leakage test has been typed in this state yet. Its sheet is under Sheets.</p>
    );
  return results.map((result) => (
    <SystemResults
      key={result.system}
      result={result}
      name={survey.systems.find(({ id }) => id === result.system)!.name}
    />
  ));
};

const SystemResults = ({ result, name }: { result: LeakageResults; name: string }) => {
  const format = useFormat();
  return (
    <section aria-label={`Leakage of ${name}`}>
      <h3>Leakage of {name}</h3>
      <ul className="verdicts">
        {result.verdicts.map((verdict) => (
          <Verdict key={verdict.id} verdict={verdict} system={result.system} />
        ))}
      </ul>
      {result.doubts.map(({ message }) => (
        <p key={message} className="doubt" role="status">
          {message}
        </p>
      ))}
      <div className="wide-table">
        <table>
          <caption>Tests</caption>
          <thead>
            <tr>
              <th scope="col">Leakage</th>
              <th scope="col" className="number">
                At 25 Pa
              </th>
              <th scope="col" className="number">
                95 % range
              </th>
              <th scope="col" className="number">
                Exponent
              </th>
              <th scope="col" className="number">
                Per floor area
              </th>
              <th scope="col" className="number">
                Of fan flow
              </th>
              <th scope="col">How</th>
            </tr>
          </thead>
          <tbody>
            {result.tests.map(({ sheet, fit, perFloorArea, perFanFlow }) => (
              <tr key={sheet.id}>
                <th scope="row">
                  {sheet.to === 'total' ? 'Total' : 'To outdoors'}
                  {sheet.side !== 'both' && `, ${sheet.side} side`}
                  {`, ${sheet.stage}`}
                </th>
                <td className="number">{format.full(fit.flow25_m3s, 'airflow')}</td>
                <td className="number">
                  {format.bare(fit.low_m3s, 'airflow')} to {format.full(fit.high_m3s, 'airflow')}
                </td>
                <td className="number">
                  {fit.exponent.toFixed(2)}
                  {fit.exponentMargin !== undefined && ` ± ${fit.exponentMargin.toFixed(2)}`}
                </td>
                <td className="number">{format.full(perFloorArea, 'airflowPerArea', 2)}</td>
                <td className="number">{format.full(perFanFlow, 'ratio', 1)}</td>
                <td className="quiet">
                  {fit.points === 1 ? 'one point' : `${fit.points} points`}, exponent {fit.exponentStanding}
                  {fit.extrapolation !== 1 &&
                    `, brought from ${fit.reached_Pa.toFixed(0)} Pa to 25 Pa (× ${fit.extrapolation.toFixed(2)})`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="quiet">
        Fan flow {format.full(result.fan.flow_m3s, 'airflow')} ±{' '}
        {format.full(result.fan.relativeError, 'ratio')}, {result.fan.source}; floor{' '}
        {format.full(result.floorArea_m2, 'area')}. Flows are those of standard air. The code as adopted and
        the standard hold before this page.
      </p>
    </section>
  );
};

const totals = { both: 'total25_m3s', supply: 'supply25_m3s', return: 'return25_m3s' } as const;

/** What the findings, where they are of the same readings, say of the leakage that a limit speaks of. */
const useTogether = ({ to, side, allowed_m3s }: LeakageVerdict, system: string): number | undefined => {
  const { asked, calibration, status } = useFindings();
  const readings = useReadings()?.readings;
  const total = to === 'total' ? totals[side] : side === 'both' ? 'outdoors25_m3s' : undefined;
  const isSame = status === 'done' && asked?.readings === readings && calibration?.system === system;
  return isSame && total && calibration.totals[total]
    ? probabilityPasses(calibration, total, allowed_m3s)
    : undefined;
};

const marks = { pass: '✓', fail: '✗', 'too close to tell': '≈', 'not tested': '?' } as const;

const Verdict = ({ verdict, system }: { verdict: LeakageVerdict; system: string }) => {
  const { units } = useFormat();
  const together = useTogether(verdict, system);
  const { judged, title, evidence } = verdict;
  const result = judged?.result ?? 'not tested';
  return (
    <li className={`verdict ${result.replaceAll(' ', '-')}`}>
      <p>
        <strong className="verdict-result">
          <span aria-hidden="true">{marks[result]} </span>
          {result.charAt(0).toUpperCase() + result.slice(1)}
        </strong>{' '}
        {title}
      </p>
      <p>{verdictWords(verdict, units)}</p>
      {judged && (
        <p>
          {sureWords(judged)}{' '}
          {result === 'too close to tell' &&
            `The figure itself is ${judged.figureWithin ? 'within' : 'above'} the limit; a test of more points, or a second one, would tell.`}
        </p>
      )}
      {together !== undefined && (
        <p>By all readings together it is within it with {Math.round(together * 100)} % probability.</p>
      )}
      <p className="quiet">{evidence}</p>
    </li>
  );
};
