import { type PlannedSet, type RepairPlan, repairCautions } from '@airledger/job';
import { missWords } from '@airledger/report/miss-words';
import { useState } from 'react';
import { useTypedJob } from '../document/document.ts';
import { useFormat } from '../figure/use-format.ts';
import { useWorkbench } from '../state/store.ts';
import { GainsPlan } from './gains-plan.tsx';
import { LockList } from './lock-list.tsx';
import { money, moneyRange, whyLost, withinBudget, worthWords } from './repair-words.ts';
import { specify, useRepairs } from './repairs-store.ts';
import { RoomGains } from './room-gains.tsx';
import { WorkTable } from './work-table.tsx';

/** A plan: its figures, the budget that moves along the value curve, the work, and what came close. */
export const PlanResult = ({ plan }: { plan: RepairPlan }) => {
  const [budget, setBudget] = useState(Math.ceil(plan.chosen.cost.typical));
  const shown = withinBudget(plan, budget);
  return (
    <div className="repair-result">
      {!plan.met && <Misses plan={plan} />}
      <Budget plan={plan} budget={budget} shown={shown} onChange={setBudget} />
      <Headline plan={plan} shown={shown} />
      <Specify shown={shown} />
      <WorkTable plan={plan} shown={shown} />
      <GainsPlan plan={plan} shown={shown} />
      <RoomGains plan={plan} shown={shown} />
      <RunnersUp plan={plan} />
      <LockList plan={plan} />
      <Cautions plan={plan} shown={shown} />
      <p className="quiet">
        Prices in {plan.prices.currency} of {plan.prices.date}, {plan.prices.source}; change them under
        repairPrices in the job.
      </p>
    </div>
  );
};

/** What a plan that does not meet its goal leaves undone, and why. */
const Misses = ({ plan }: { plan: RepairPlan }) => {
  const units = useWorkbench((state) => state.units);
  return (
    <section aria-label="What it still misses" className="repair-unmet">
      <p role="status">
        None of the {plan.evaluations} sets of repairs that were worked out meets the goal; this comes nearest
        to it.
      </p>
      <ul>
        {missWords(plan.misses, units).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </section>
  );
};

type Shown = { readonly plan: RepairPlan; readonly shown: PlannedSet };

const Budget = ({
  plan,
  budget,
  shown,
  onChange,
}: Shown & { budget: number; onChange: (budget: number) => void }) => {
  const format = useFormat();
  const most = Math.max(plan.chosen.cost.typical, plan.curve.at(-1)?.cost.typical ?? 0);
  const start = plan.curve[0]?.worth ?? 0;
  const width = 480;
  const height = 90;
  const x = (cost: number): number => (most > 0 ? (cost / most) * width : 0);
  const y = (worth: number): number => height - (start > 0 ? (worth / start) * (height - 6) : 0);
  const line = plan.curve.flatMap((one, i) => {
    const next = plan.curve[i + 1]?.cost.typical ?? most;
    return [`${x(one.cost.typical)},${y(one.worth)}`, `${x(next)},${y(one.worth)}`];
  });
  return (
    <section aria-label="Budget" className="repair-budget">
      <label htmlFor="repair-budget">Budget: {money(budget)}</label>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label="What is left to gain by what is spent">
        <polyline points={line.join(' ')} className="curve-line" />
        <circle cx={x(shown.cost.typical)} cy={y(shown.worth)} r={5} className="curve-here" />
      </svg>
      <input
        id="repair-budget"
        type="range"
        min={0}
        max={Math.max(1, Math.ceil(most))}
        step={Math.max(1, Math.round(most / 100))}
        value={budget}
        aria-valuetext={`${money(budget)}: ${shown.repairs.length} repairs, ${worthWords(plan.goal, shown.worth, format)} left`}
        onChange={(event) => onChange(Number(event.target.value))}
      />
      <p>
        {shown.repairs.length === 0 ? 'Nothing is done' : `${shown.repairs.length} repairs`},{' '}
        {moneyRange(shown.cost)}; left over: {worthWords(plan.goal, shown.worth, format)}.
      </p>
    </section>
  );
};

const Headline = ({ plan, shown }: Shown) => {
  const format = useFormat();
  const { before, money: sums, steadiness, chosen } = plan;
  const after = shown.standing;
  const isPlan = shown.set === chosen.set;
  const payback = sums?.worth.typical.simplePayback_years;
  return (
    <dl className="repair-figures">
      <div>
        <dt>Cost</dt>
        <dd>{moneyRange(shown.cost)}</dd>
      </div>
      {before.year && after.year && (
        <>
          <div>
            <dt>Energy saved</dt>
            <dd>
              {isPlan && sums ? moneyRange(sums.saving) : money(before.year.cost - after.year.cost)} a year
            </dd>
          </div>
          <div>
            <dt>Discomfort</dt>
            <dd>
              {before.year.discomfort_Kh.toFixed(0)} to {after.year.discomfort_Kh.toFixed(0)} K·h a year
            </dd>
          </div>
        </>
      )}
      {isPlan && sums && (
        <div>
          <dt>Payback</dt>
          <dd>
            {payback === undefined ? 'none' : `${payback.toFixed(1)} years`}; {sums.worth.typical.verdict}
          </dd>
        </div>
      )}
      {isPlan && steadiness && (
        <div>
          <dt>Stays the best</dt>
          <dd>
            in {Math.round(100 * steadiness.best)} % of {steadiness.draws} drawn houses; worst room{' '}
            {format.full(steadiness.worstDrift_K.low, 'temperatureDifference', 1)} to{' '}
            {format.full(steadiness.worstDrift_K.high, 'temperatureDifference', 1)} off
          </dd>
        </div>
      )}
    </dl>
  );
};

const Specify = ({ shown }: { shown: PlannedSet }) => {
  const typed = useTypedJob();
  const { asked } = useRepairs();
  const [told, setTold] = useState('');
  const isCurrent = asked?.job === typed;
  const make = async () => {
    const result = await specify(shown.repairs);
    if (!result) return;
    if (!result.ok) return setTold(result.errors.map(({ message }) => message).join(' '));
    const id = useWorkbench.getState().typed?.states?.findLast(({ name }) => name === 'As specified')?.id;
    setTold(
      `The plan is the state "As specified" now${id === undefined ? '' : '; choose it above to see it'}.`,
    );
  };
  return (
    <p className="repair-specify">
      <button
        type="button"
        className="plain-button"
        disabled={!isCurrent || shown.repairs.length === 0}
        onClick={() => void make()}
      >
        Make it the as-specified state
      </button>{' '}
      <span role="status">{told || (isCurrent ? '' : 'The house has changed since; plan again first.')}</span>
    </p>
  );
};

const RunnersUp = ({ plan }: { plan: RepairPlan }) => {
  const format = useFormat();
  if (plan.runnersUp.length === 0) return null;
  const names = (ids: readonly string[]): string =>
    ids.map((id) => plan.candidates.find((one) => one.id === id)?.name ?? id).join('; ');
  return (
    <section aria-label="What came close">
      <h3>What came close</h3>
      <ul>
        {plan.runnersUp.map((one) => (
          <li key={one.set}>
            {money(one.cost.typical)}: {one.adds.length > 0 && `does also ${names(one.adds)}. `}
            {one.lacks.length > 0 && `Leaves out ${names(one.lacks)}. `}
            It {whyLost(plan, one, format)}.
          </li>
        ))}
      </ul>
    </section>
  );
};

const Cautions = ({ plan, shown }: Shown) => {
  const names = new Set(
    plan.candidates.filter(({ id }) => shown.repairs.includes(id)).flatMap(({ repair }) => repair.cautions),
  );
  if (names.size === 0) return null;
  return (
    <section aria-label="Mind">
      <h3>Mind</h3>
      <ul>
        {[...names].map((name) => (
          <li key={name}>{repairCautions.get(name)}</li>
        ))}
      </ul>
    </section>
  );
};
