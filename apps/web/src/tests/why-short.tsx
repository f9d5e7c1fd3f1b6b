import type { RangedExplanation } from '@airledger/engine';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { explanationSentence, rangeText } from '@airledger/report/calibration-words';
import { useEffect, useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { estimator, useFindings } from './findings-store.ts';
import { RangeBar } from './range-bar.tsx';

/** Why a room is short of air, cause by cause, in the house that the readings tell, with ranges. */
export const WhyShort = ({ calibration }: { calibration: Calibration }) => {
  const account = useAccount();
  const inHand = useWorkbench((state) => state.room);
  const { asked, status } = useFindings();
  const format = useFormat();
  const rooms = account?.rooms.filter(({ delivered_m3s }) => delivered_m3s > 0) ?? [];
  const [chosen, setChosen] = useState<string>();
  const room = chosen ?? (rooms.some((one) => one.room === inHand) ? inHand : rooms[0]?.room);
  const [found, setFound] = useState<RangedExplanation>();
  const isDone = status === 'done';
  useEffect(() => {
    if (!isDone || !asked || room === undefined || calibration.draws.length === 0) return;
    let stillWanted = true;
    setFound(undefined);
    estimator()
      .explain(asked.survey, calibration, room)
      .then((explanation) => stillWanted && setFound(explanation))
      .catch(() => stillWanted && setFound(undefined));
    return () => {
      stillWanted = false;
    };
  }, [calibration, isDone, asked, room]);
  if (rooms.length === 0) return null;
  const most = found
    ? Math.max(...found.causes.map(({ low_m3s, high_m3s }) => Math.max(-low_m3s, high_m3s)), 1e-6)
    : 1;
  return (
    <section aria-label="Why rooms are short">
      <h3>
        <label>
          Why{' '}
          <select className="tests-select" value={room} onChange={(event) => setChosen(event.target.value)}>
            {rooms.map((one) => (
              <option key={one.room} value={one.room}>
                {one.name}
              </option>
            ))}
          </select>{' '}
          is short of air
        </label>
      </h3>
      {!found ? (
        <p className="quiet" role="status">
          Working out the causes …
        </p>
      ) : (
        <>
          <p>{explanationSentence(found, rooms.find((one) => one.room === room)!.name, format.units)}</p>
          <table className="found">
            <caption className="unseen">Causes with their ranges</caption>
            <tbody>
              {found.causes.map((cause) => {
                const range = { low: cause.low_m3s, middle: cause.air_m3s, high: cause.high_m3s };
                return (
                  <tr key={cause.id}>
                    <th scope="row" className="cause">
                      {cause.what}
                    </th>
                    <td>
                      <RangeBar range={range} most={most} />
                    </td>
                    <td className="number">{rangeText(range, 'airflow', format.units)}</td>
                  </tr>
                );
              })}
              <tr>
                <th scope="row">Size and length of its ducts, and the fan</th>
                <td />
                <td className="number">
                  {rangeText(
                    {
                      low: found.layoutRange_m3s.low,
                      middle: found.layout_m3s,
                      high: found.layoutRange_m3s.high,
                    },
                    'airflow',
                    format.units,
                  )}
                </td>
              </tr>
            </tbody>
          </table>
        </>
      )}
    </section>
  );
};
