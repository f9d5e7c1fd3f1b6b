import type { Calibration } from '@airledger/engine/calibrate/calibration';
import {
  airSplit,
  heatSplit,
  imbalanceSplit,
  type Split,
  serviceWord,
} from '@airledger/report/explanation-words';
import { rangeText } from '@airledger/report/range-text';
import { useEffect, useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import type { RangedReasons } from './calibrate-worker.ts';
import { estimator, useFindings } from './findings-store.ts';
import { RangeBar } from './range-bar.tsx';

/** Why a room is short of air and heat and the house uneven, cause by cause, in the house that the readings tell. */
export const WhyShort = ({ calibration }: { calibration: Calibration }) => {
  const account = useAccount();
  const inHand = useWorkbench((state) => state.room);
  const { asked, status } = useFindings();
  const format = useFormat();
  const rooms = account?.rooms.filter(({ delivered_m3s }) => delivered_m3s > 0) ?? [];
  const [chosen, setChosen] = useState<string>();
  const room = chosen ?? (rooms.some((one) => one.room === inHand) ? inHand : rooms[0]?.room);
  const [found, setFound] = useState<RangedReasons>();
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
  const name = rooms.find((one) => one.room === room)!.name;
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
          is short of air and heat
        </label>
      </h3>
      {!found ? (
        <p className="quiet" role="status">
          Working out the causes …
        </p>
      ) : (
        <>
          <Parts
            split={airSplit(found.room.air, name, format.units)}
            caption="Causes of the shortage of air, with their ranges"
          />
          <Parts
            split={heatSplit(found.room.heat, name, found.mode, format.units)}
            caption="Causes of the shortage of heat, with their ranges"
          />
          {found.imbalances.length > 0 && <h4>Between rooms</h4>}
          {found.imbalances.map((imbalance) => (
            <Parts
              key={[imbalance.of, ...imbalance.groups.map((group) => group.name)].join(' ')}
              split={imbalanceSplit(imbalance, found.mode, format.units)}
              caption={`Causes of the gap in ${serviceWord(imbalance.of, found.mode)} between ${imbalance.groups[0].name} and ${imbalance.groups[1].name}`}
            />
          ))}
        </>
      )}
    </section>
  );
};

/** A split in a sentence, and in bars with ranges. */
const Parts = ({ split: { sentence, parts, dimension }, caption }: { split: Split; caption: string }) => {
  const format = useFormat();
  const most = Math.max(...parts.map(({ value, range }) => range?.high ?? value), Number.MIN_VALUE);
  const least = Math.min(...parts.map(({ value, range }) => range?.low ?? value), 0);
  return (
    <>
      <p>{sentence}</p>
      <table className="found">
        <caption className="unseen">{caption}</caption>
        <tbody>
          {parts.map(({ id, what, value, range }) => {
            const shown = { low: range?.low ?? value, middle: value, high: range?.high ?? value };
            return (
              <tr key={id}>
                <th scope="row" className="cause">
                  {what}
                </th>
                <td>
                  <RangeBar range={shown} most={most} least={least} />
                </td>
                <td className="number">
                  {range ? rangeText(shown, dimension, format.units, 0) : format.full(value, dimension, 0)}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
};
