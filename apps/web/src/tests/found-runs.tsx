import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { knowledgeWords } from '@airledger/report/calibration-words';
import { nameOf } from '@airledger/report/place-names';
import { rangeText } from '@airledger/report/range-text';
import { useFormat } from '../figure/use-format.ts';
import { useFindings } from './findings-store.ts';
import { RangeBar } from './range-bar.tsx';

/** How restricted each run is against its survey, and the air that it carries. */
export const FoundRuns = ({ calibration }: { calibration: Calibration }) => {
  const { asked, before } = useFindings();
  const format = useFormat();
  if (!asked) return null;
  const name = nameOf(asked.survey);
  const runs = calibration.restrictions.toSorted(
    (a, b) => b.defectProbability - a.defectProbability || b.factor.middle - a.factor.middle,
  );
  const most = Math.max(...runs.map(({ factor }) => factor.high));
  return (
    <div className="wide-table">
      <table className="found">
        <caption>Runs: resistance against the survey, and the air that passes</caption>
        <thead>
          <tr>
            <th scope="col">Run</th>
            <th scope="col">
              <span className="unseen">Range</span>
            </th>
            <th scope="col" className="number">
              Resistance, × surveyed
            </th>
            <th scope="col" className="number">
              Restricted
            </th>
            <th scope="col" className="number">
              Air
            </th>
            <th scope="col">Known</th>
          </tr>
        </thead>
        <tbody>
          {runs.map(({ run, terminal, factor, defectProbability, knowledge }) => {
            const flow = calibration.flows.find((one) => one.terminal === terminal);
            const was = before?.restrictions.find((one) => one.run === run);
            const wasFlow = before?.flows.find((one) => one.terminal === terminal);
            return (
              <tr key={run} className={knowledge === 'not measured' ? 'unmeasured' : undefined}>
                <th scope="row">{name(run)}</th>
                <td>
                  <RangeBar range={factor} before={was?.factor} most={most} />
                </td>
                <td className="number">{rangeText(factor, 'number', format.units, 1)}</td>
                <td className="number">{format.full(defectProbability, 'ratio')}</td>
                <td className="number">
                  {flow ? rangeText(flow.flow_m3s, 'airflow', format.units) : '—'}
                  {wasFlow && (
                    <span className="quiet was">
                      {' '}
                      was {rangeText(wasFlow.flow_m3s, 'airflow', format.units)}
                    </span>
                  )}
                </td>
                <td>{knowledgeWords[knowledge]}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
};
