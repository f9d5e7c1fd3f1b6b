import {
  addState,
  applyState,
  type Change,
  describeDiff,
  idFrom,
  type Job,
  stateIds,
  takeBackChange,
} from '@airledger/job';
import { type FormEvent, useState } from 'react';
import { type EditResult, editTyped, useTypedJob } from '../document/document.ts';
import { Panel } from '../shell/panel.tsx';
import { useWorkbench } from '../state/store.ts';

/** The states of the house in order, what each changes on the one before, and the next one. */
export const StatesPanel = () => {
  const typed = useTypedJob();
  const states = useWorkbench((state) => state.job?.states ?? none);
  const [problem, setProblem] = useState('');
  if (!typed) return null;
  const told = (result: EditResult) =>
    setProblem(result.ok ? '' : result.errors.map(({ message }) => message).join(' '));
  return (
    <Panel title="States of the house">
      {problem && <p role="alert">{problem}</p>}
      {states.map(({ id, name }, position) => (
        <section key={id} aria-label={name}>
          <div className="panel-row">
            <StateName id={id} name={name} onDone={told} />
          </div>
          {position > 0 && (
            <Changes job={typed} state={id} before={states[position - 1]!.name} onDone={told} />
          )}
        </section>
      ))}
      <NewState job={typed} onDone={told} />
    </Panel>
  );
};

const none: readonly { readonly id: string; readonly name: string }[] = [];

const StateName = ({
  id,
  name,
  onDone,
}: {
  id: string;
  name: string;
  onDone: (result: EditResult) => void;
}) => {
  const [text, setText] = useState(name);
  const keep = () => {
    const wanted = text.trim();
    if (wanted === '' || wanted === name) return setText(name);
    onDone(editTyped(`State renamed: ${wanted}`, (job) => renamed(job, id, wanted)));
  };
  return (
    <input
      type="text"
      className="grows"
      aria-label={`Name of the state ${name}`}
      value={text}
      onChange={(event) => setText(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
    />
  );
};

const renamed = (job: Job, id: string, name: string): Job => ({
  ...job,
  states: job.states?.length
    ? job.states.map((state) => (state.id === id ? { ...state, name } : state))
    : [{ id, name, changes: [] }],
});

const Changes = ({
  job,
  state,
  before,
  onDone,
}: {
  job: Job;
  state: string;
  before: string;
  onDone: (result: EditResult) => void;
}) => {
  const changes = job.states?.find(({ id }) => id === state)?.changes ?? [];
  if (changes.length === 0) return <p className="quiet">As “{before}” so far.</p>;
  return (
    <ol className="panel-list" aria-label={`Changes on ${before}`}>
      {changes.map((change, i) => {
        const words = changeWords(job, state, change);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a change has no name of its own but its place
          <li key={i}>
            <span className="grows">
              {words}
              {change.why && <span className="quiet"> ({change.why})</span>}
            </span>
            <button
              type="button"
              className="plain-button"
              aria-label={`Remove: ${words}`}
              onClick={() =>
                onDone(editTyped(`Without: ${words}`, (typed) => takeBackChange(typed, state, i)))
              }
            >
              Remove
            </button>
          </li>
        );
      })}
    </ol>
  );
};

/** A change of a state in words, records by the names they have in it. */
const changeWords = (job: Job, state: string, change: Change): string => {
  const house = { ...applyState(job, state), states: [{ id: state, name: state, changes: [] }] };
  const [line = ''] = describeDiff([{ path: `states/${state}/changes/one`, to: change }], house);
  const words = line.slice(state.length + 2);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

const NewState = ({ job, onDone }: { job: Job; onDone: (result: EditResult) => void }) => {
  const count = stateIds(job).length;
  const [name, setName] = useState(count === 1 ? 'As specified' : 'As built');
  const before = job.states?.at(-1)?.name ?? stateIds(job).at(-1)!.replaceAll('-', ' ');
  const add = (event: FormEvent) => {
    event.preventDefault();
    const wanted = name.trim();
    if (wanted === '') return;
    const taken = stateIds(job);
    const stem = idFrom(wanted);
    const id = taken.includes(stem) ? `${stem}-${count + 1}` : stem;
    const result = editTyped(`New state: ${wanted}`, (typed) => addState(typed, { id, name: wanted }));
    if (result.ok) useWorkbench.setState({ viewed: id, compared: false });
    onDone(result);
  };
  return (
    <form className="panel-row" onSubmit={add}>
      <label htmlFor="new-state">New state, begun as a copy of “{before}”</label>
      <input
        id="new-state"
        type="text"
        className="grows"
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" className="plain-button">
        Add state
      </button>
    </form>
  );
};
