import type { DamperSetting, Survey } from '@airledger/engine';
import { nameOf } from '@airledger/report/place-names';
import { useFormat } from '../figure/use-format.ts';

/** Every supply register with its damper as found and as it is to be. */
export const DamperTable = ({ survey, settings }: { survey: Survey; settings: readonly DamperSetting[] }) => {
  const format = useFormat();
  const name = nameOf(survey);
  const open = (position: number | undefined) =>
    position === undefined ? 'none' : format.full(position, 'ratio');
  return (
    <div className="wide-table">
      <table>
        <caption>Dampers: the same share of need for every room, with the least throttling</caption>
        <thead>
          <tr>
            <th scope="col">Room</th>
            <th scope="col">Damper in</th>
            <th scope="col" className="number">
              Open as found
            </th>
            <th scope="col" className="number">
              Set to
            </th>
            <th scope="col" className="number">
              Aim, {format.unit('airflow')}
            </th>
            <th scope="col" className="number">
              Gets, {format.unit('airflow')}
            </th>
          </tr>
        </thead>
        <tbody>
          {settings.map(({ system, terminal, room, part, before, position, target_m3s, flow_m3s }) => (
            <tr key={`${system}/${terminal}`}>
              <th scope="row">{name(room)}</th>
              <td>{part === undefined ? 'no damper' : name(part)}</td>
              <td className="number">{open(before)}</td>
              <td className="number">
                <strong>{open(position)}</strong>
              </td>
              <td className="number">{format.bare(target_m3s, 'airflow', 0)}</td>
              <td className="number">{format.bare(flow_m3s, 'airflow', 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};
