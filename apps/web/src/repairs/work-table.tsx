import type { CandidateFacts, PlannedSet, RepairPlan } from '@airledger/job';
import { LockChoice } from './lock-list.tsx';
import { money, moneyRange } from './repair-words.ts';

/** The repairs of a set in the order of work, with the test that belongs between sealing and insulating. */
export const WorkTable = ({ plan, shown }: { plan: RepairPlan; shown: PlannedSet }) => {
  const work = plan.candidates.filter(({ id }) => shown.repairs.includes(id));
  if (work.length === 0) return null;
  const sealed = work.findLastIndex(({ repair }) => repair.phase === 'seal' || repair.id === 'reconnect');
  const isPlan = shown.set === plan.chosen.set;
  const places = new Map(plan.work.map(({ candidate, byValue }) => [candidate.id, byValue]));
  return (
    <table className="repair-work">
      <caption>Work, in order</caption>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col">What</th>
          <th scope="col">How much</th>
          <th scope="col">Hours</th>
          <th scope="col">Cost</th>
          {isPlan && <th scope="col">By value</th>}
          <th scope="col">Hold</th>
        </tr>
      </thead>
      <tbody>
        {work.flatMap((candidate, i) => [
          <Row
            key={candidate.id}
            candidate={candidate}
            byValue={isPlan ? places.get(candidate.id) : undefined}
          />,
          i === sealed && plan.test ? (
            <tr key="test">
              <td>test</td>
              <th scope="row">Test the leakage of the ducts</th>
              <td />
              <td />
              <td>{money(plan.test.typical)}</td>
              {isPlan && <td />}
              <td />
            </tr>
          ) : null,
        ])}
      </tbody>
    </table>
  );
};

const Row = ({ candidate, byValue }: { candidate: CandidateFacts; byValue: number | undefined }) => {
  const { repair, name, quantity, hours, cost, materials } = candidate;
  return (
    <tr>
      <td>{repair.phase}</td>
      <th scope="row">
        {name}
        <details>
          <summary>How</summary>
          <p>{repair.how}</p>
          {materials.length > 0 && (
            <p>
              {materials.map(({ what, amount, unit }) => `${what}, ${amount.toFixed(1)} ${unit}`).join('; ')}
            </p>
          )}
          <p className="quiet">
            Lasts about {repair.life_years} years. {repair.source}.
          </p>
        </details>
      </th>
      <td>
        {quantity.toFixed(quantity < 10 ? 1 : 0)} {repair.unit}
      </td>
      <td>{hours.toFixed(1)}</td>
      <td>{moneyRange(cost)}</td>
      {byValue !== undefined && <td>{byValue}</td>}
      <td>
        <LockChoice id={candidate.id} name={name} />
      </td>
    </tr>
  );
};
