import type { Survey, ZoningCase } from '@airledger/engine';
import { nameOf } from '@airledger/report/place-names';
import { useFormat } from '../figure/use-format.ts';

/** What shutting zones does to the fan, the static pressure and the bypass; nothing in a house without zone dampers. */
export const ZoneDampers = ({ survey, cases }: { survey: Survey; cases: readonly ZoningCase[] }) => {
  const format = useFormat();
  const name = nameOf(survey);
  if (cases.length === 0) return null;
  return (
    <div className="wide-table">
      <table>
        <caption>Zone dampers</caption>
        <thead>
          <tr>
            <th scope="col">Shut</th>
            <th scope="col" className="number">
              Fan
            </th>
            <th scope="col" className="number">
              External static
            </th>
            <th scope="col" className="number">
              Bypass
            </th>
          </tr>
        </thead>
        <tbody>
          {cases.map(({ system, shut, fanFlow_m3s, externalStatic_Pa, bypass_m3s }) => (
            <tr key={`${system}: ${shut.join()}`}>
              <th scope="row">{shut.length === 0 ? 'none' : shut.map(name).join(', ')}</th>
              <td className="number">{format.full(fanFlow_m3s, 'airflow', 0)}</td>
              <td className="number">{format.full(externalStatic_Pa, 'pressure')}</td>
              <td className="number">{format.full(bypass_m3s, 'airflow', 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};
