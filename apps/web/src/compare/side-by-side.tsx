import { StoreySwitch } from '../air/storey-switch.tsx';
import { Plan } from '../plan/plan.tsx';
import { PlanLegend } from '../plan/plan-legend.tsx';
import { useWorkbench } from '../state/store.ts';
import { CompareTable } from './compare-table.tsx';
import './compare.css';

const places = ['left', 'right'] as const;
const noStates: readonly { id: string; name: string }[] = [];

/** Two states of the house beside each other: their plans, and their rooms with the differences. */
export const SideBySide = () => {
  const pair = useWorkbench((state) => state.pair);
  const states = useWorkbench((state) => state.job?.states ?? noStates);
  const readings = useWorkbench((state) => state.readings);
  const mode = useWorkbench((state) => state.mode);
  const storey = useWorkbench((state) => state.storey);
  const accounts = pair.map((id) => readings[id]?.accounts[mode]);
  const names = pair.map((id) => states.find((state) => state.id === id)?.name ?? id);
  const [first, second] = accounts;
  if (!first || !second) return <p className="quiet">Solving both states …</p>;
  return (
    <>
      <div className="pair">
        {pair.map((_, i) => (
          <section key={places[i]} className="sheet plan-panel" aria-label={`Plan ${names[i]}`}>
            <div className="sheet-head">
              {states.length > 2 ? <StateChoice place={i as 0 | 1} /> : <h2>{names[i]}</h2>}
              <span className="push" />
              {i === 0 && <StoreySwitch account={first} />}
            </div>
            <Plan account={accounts[i]!} storey={storey} label={`Plan of storey ${storey}, ${names[i]}`} />
          </section>
        ))}
      </div>
      <section className="sheet compare-rooms" aria-label="Rooms compared">
        <PlanLegend />
        <CompareTable first={first} second={second} names={[names[0]!, names[1]!]} />
      </section>
    </>
  );
};

/** Which state stands on one side, where a job has more than two. */
const StateChoice = ({ place }: { place: 0 | 1 }) => {
  const states = useWorkbench((state) => state.job?.states ?? noStates);
  const pair = useWorkbench((state) => state.pair);
  return (
    <select
      className="state-choice"
      aria-label={`State on the ${places[place]}`}
      value={pair[place]}
      onChange={(event) =>
        useWorkbench.setState({
          pair: place === 0 ? [event.target.value, pair[1]] : [pair[0], event.target.value],
        })
      }
    >
      {states.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </select>
  );
};
