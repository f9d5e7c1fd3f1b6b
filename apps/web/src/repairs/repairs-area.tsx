import type { Goal } from '@airledger/job';
import { useTypedJob } from '../document/document.ts';
import { useFormat } from '../figure/use-format.ts';
import { useWeather } from '../season/weather-store.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { useBaseSurvey, useStateName } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { planStands } from './plan-in-brief.ts';
import { PlanResult } from './plan-result.tsx';
import { setQuestion, useQuestion } from './question-store.ts';
import { goalWords, stageWords } from './repair-words.ts';
import { askPlan, stopPlanning, useRepairs } from './repairs-store.ts';
import './repairs.css';

/** Repairs: the best set for a goal, what it costs and brings, and what each next dollar buys. */
export const RepairsArea = () => {
  const name = useStateName();
  const job = useTypedJob();
  const state = useWorkbench(({ viewed }) => viewed);
  const { plan, asked } = useRepairs();
  const { weather } = useWeather();
  const stands = planStands(asked, { job, state, weather: weather?.text });
  return (
    <Scrolls className="sheet page-area repairs-area" label="Repairs">
      <header>
        <h2>Repairs</h2>
        <span className="quiet">
          {plan && stands ? 'planned on' : 'the next plan is on'}: {name}, with{' '}
          {weather ? `the weather of ${weather.name}` : 'a year made from the site'}
          {plan &&
            !stands &&
            '; the house, its state or the weather has changed since the plan below was made'}
        </span>
      </header>
      <GoalForm />
      <Progress />
      {plan && <PlanResult plan={plan} key={plan.chosen.set + plan.goal.kind} />}
    </Scrolls>
  );
};

const GoalForm = () => {
  const typed = useTypedJob();
  const survey = useBaseSurvey();
  const viewed = useWorkbench((state) => state.viewed);
  const { status, locks } = useRepairs();
  const { weather } = useWeather();
  const { kind, room: wanted, tolerance_K, budget } = useQuestion();
  const format = useFormat();
  if (!typed || !survey) return null;
  // Another house may not have the room.
  const room = survey.rooms.some(({ id }) => id === wanted) ? wanted : '';
  const locked = (as: 'must' | 'not') => Object.keys(locks).filter((id) => locks[id] === as);
  const ask = () => {
    const goal: Goal = kind === 'rooms' ? { kind, tolerance_K, ...(room && { rooms: [room] }) } : { kind };
    void askPlan(typed, viewed, {
      goal,
      budget: kind === 'comfort' ? budget : undefined,
      must: locked('must'),
      mustNot: locked('not'),
      weather: weather?.text,
    });
  };
  return (
    <form
      className="repair-goal"
      onSubmit={(event) => {
        event.preventDefault();
        ask();
      }}
    >
      <Segmented
        label="Goal"
        choices={goalWords}
        value={kind}
        onChange={(value) => setQuestion({ kind: value })}
      />
      {kind === 'rooms' && (
        <>
          <label>
            Rooms{' '}
            <select value={room} onChange={(event) => setQuestion({ room: event.target.value })}>
              <option value="">all of them</option>
              {survey.rooms.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          <label>
            within{' '}
            <select
              value={tolerance_K}
              onChange={(event) => setQuestion({ tolerance_K: Number(event.target.value) })}
            >
              {[0.5, 1, 1.5, 2].map((value) => (
                <option key={value} value={value}>
                  {format.full(value, 'temperatureDifference')}
                </option>
              ))}
            </select>
          </label>
        </>
      )}
      {kind === 'comfort' && (
        <label>
          Budget, ${' '}
          <input
            type="number"
            min={0}
            step={100}
            value={budget}
            onChange={(event) => setQuestion({ budget: Number(event.target.value) })}
          />
        </label>
      )}
      <button type="submit" className="plain-button">
        {status === 'working' ? 'Start again' : 'Plan'}
      </button>
    </form>
  );
};

const Progress = () => {
  const { status, progress, failure } = useRepairs();
  if (status === 'working')
    return (
      <div className="repair-progress">
        <progress
          aria-label="Planning"
          value={progress ? Math.min(progress.done, progress.of) : 0}
          max={progress?.of ?? 1}
        />
        <span role="status">
          {progress
            ? `${stageWords[progress.doing]}; best so far: ${progress.best.length} repairs`
            : 'Reading the house'}{' '}
          …
        </span>
        <button type="button" className="plain-button" onClick={stopPlanning}>
          Stop
        </button>
      </div>
    );
  if (status === 'failed') return <p role="alert">It could not be planned: {failure}</p>;
  if (status === 'stopped') return <p role="status">Stopped before the end.</p>;
  if (status === 'none')
    return (
      <p className="quiet">
        Choose what the repairs are for. Every set of them is worked out on the whole house.
      </p>
    );
  return null;
};
