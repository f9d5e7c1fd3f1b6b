import type { Account } from '@airledger/engine';
import { signed } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { isShort, standing } from '../plan/standing.ts';
import { Scrolls } from '../shell/scrolls.tsx';

/** Rooms and systems of two states with what changes between them. */
export const CompareTable = ({
  first,
  second,
  names,
}: {
  first: Account;
  second: Account;
  names: readonly [string, string];
}) => {
  const format = useFormat();
  const air = (value: number) => format.bare(value, 'airflow', 0);
  return (
    <Scrolls className="compare-scroll" label="Rooms of both states">
      <table>
        <caption className="unseen">
          Rooms {names[0]} and {names[1]}
        </caption>
        <thead>
          <tr>
            <th scope="col">Room</th>
            <th scope="col" className="number">
              Gets of needs, {names[0]}
            </th>
            <th scope="col" className="number">
              {names[1]}
            </th>
            <th scope="col" className="number">
              Change, {format.unit('airflow')}
            </th>
            <th scope="col" className="number">
              Temperature, {names[0]}
            </th>
            <th scope="col" className="number">
              {names[1]}
            </th>
            <th scope="col" className="number">
              Change
            </th>
          </tr>
        </thead>
        <tbody>
          {first.rooms.map((a) => {
            const b = second.rooms.find((room) => room.room === a.room);
            if (!b) return null;
            return (
              <tr key={a.room}>
                <th scope="row">{a.name}</th>
                {[a, b].map((room, i) => (
                  <td key={names[i]} className={isShort(standing(room)) ? 'number is-short' : 'number'}>
                    {format.of(room.delivered_m3s, room.needed_m3s, 'airflow')}
                    {isShort(standing(room)) && ', short'}
                  </td>
                ))}
                <td className="number strong">{signed(air(b.delivered_m3s - a.delivered_m3s))}</td>
                <td className="number">{format.full(a.predicted_C, 'temperature')}</td>
                <td className="number">{format.full(b.predicted_C, 'temperature')}</td>
                <td className="number strong">
                  {signed(format.full(b.predicted_C - a.predicted_C, 'temperatureDifference'))}
                </td>
              </tr>
            );
          })}
        </tbody>
        <tfoot>
          {first.systems.map((a) => {
            const b = second.systems.find((system) => system.system === a.system);
            if (!b) return null;
            return (
              <tr key={a.system}>
                <th scope="row">{a.name}: fan, leaks out</th>
                <td className="number">
                  {format.full(a.fanFlow_m3s, 'airflow', 0)}, {air(a.supplyLeak_m3s)}
                </td>
                <td className="number">
                  {format.full(b.fanFlow_m3s, 'airflow', 0)}, {air(b.supplyLeak_m3s)}
                </td>
                <td className="number strong">{signed(air(b.fanFlow_m3s - a.fanFlow_m3s))}</td>
                <td className="number">runs {format.full(a.runFraction, 'ratio')}</td>
                <td className="number">runs {format.full(b.runFraction, 'ratio')}</td>
                <td />
              </tr>
            );
          })}
        </tfoot>
      </table>
    </Scrolls>
  );
};
