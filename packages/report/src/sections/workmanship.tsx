import sealants from '../../data/sealants.json' with { type: 'json' };
import workOrder from '../../data/work-order.json' with { type: 'json' };
import workmanship from '../../data/workmanship.json' with { type: 'json' };
import { DataTable } from '../data-table.tsx';

/** In which order, with which sealant, and how: the same for every house. */
export const Workmanship = () => (
  <>
    <h3>Order of work</h3>
    <DataTable
      caption="Seal, test, insulate, balance: in this order"
      columns={[
        { head: 'Step', width: 12 },
        { head: 'What' },
        { head: 'Why now' },
        { head: 'Accepted when' },
        { head: 'Source' },
      ]}
      rows={workOrder.map(({ step, what, why, accepted, source }, s) => [
        `${s + 1}. ${step}`,
        what,
        why,
        accepted,
        source,
      ])}
    />
    <h3>How to seal</h3>
    <DataTable
      caption="Sealant by the width of the gap"
      columns={[{ head: 'Gap' }, { head: 'Sealant' }, { head: 'Source' }]}
      rows={sealants.map(({ gap, sealant, source }) => [gap, sealant, source])}
    />
    <ul>
      {workmanship.map(({ text, source }) => (
        <li key={text}>
          {text} <span className="source">({source})</span>
        </li>
      ))}
    </ul>
  </>
);
