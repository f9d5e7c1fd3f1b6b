import type { RepairPlan } from '@airledger/job';
import { money } from './repair-words.ts';
import { type Lock, lock, useRepairs } from './repairs-store.ts';

/** Whether a repair is free, has to be done, or must not be; the next plan keeps to it. */
export const LockChoice = ({ id, name }: { id: string; name: string }) => {
  const held = useRepairs((state) => state.locks[id]);
  return (
    <select
      className="hold"
      aria-label={`Hold: ${name}`}
      value={held ?? ''}
      onChange={(event) => lock(id, event.target.value === '' ? undefined : (event.target.value as Lock))}
    >
      <option value="">free</option>
      <option value="must">must do</option>
      <option value="not">must not</option>
    </select>
  );
};

/** All repairs that make sense in the house, each to be held in or out. */
export const LockList = ({ plan }: { plan: RepairPlan }) => (
  <details className="repair-locks">
    <summary>All {plan.candidates.length} repairs that make sense here</summary>
    <ul>
      {plan.candidates.map(({ id, name, cost }) => (
        <li key={id}>
          <span>
            {name}, {money(cost.typical)}
          </span>
          <LockChoice id={id} name={name} />
        </li>
      ))}
    </ul>
  </details>
);
