import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { totalsOf } from '@airledger/report/calibration-words';
import { rangeText } from '@airledger/report/range-text';
import { useFormat } from '../figure/use-format.ts';

/** What is learnt best: fan flow, and leakage in sum. */
export const FoundTotals = ({ calibration }: { calibration: Calibration }) => {
  const { units } = useFormat();
  return (
    <table className="found">
      <caption>In sum</caption>
      <tbody>
        {totalsOf(calibration).map(({ words, range }) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td className="number">{rangeText(range, 'airflow', units)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
