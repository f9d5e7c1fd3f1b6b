import { StoreySwitch } from '../air/storey-switch.tsx';
import { Plan } from '../plan/plan.tsx';
import { PlanLegend } from '../plan/plan-legend.tsx';
import { useWorkbench } from '../state/store.ts';
import { CompareTable } from './compare-table.tsx';
import './compare.css';

/** Two states of the house beside each other: their plans, and their rooms with the differences. */
export const SideBySide = () => {
  const states = useWorkbench((state) => state.job?.states ?? []).slice(0, 2);
  const readings = useWorkbench((state) => state.readings);
  const mode = useWorkbench((state) => state.mode);
  const storey = useWorkbench((state) => state.storey);
  const accounts = states.map(({ id }) => readings[id]?.accounts[mode]);
  const [first, second] = accounts;
  if (!first || !second) return <p className="quiet">Solving both states …</p>;
  return (
    <>
      <div className="pair">
        {states.map(({ id, name }, i) => (
          <section key={id} className="sheet plan-panel" aria-label={`Plan ${name}`}>
            <div className="sheet-head">
              <h2>{name.charAt(0).toUpperCase() + name.slice(1)}</h2>
              <span className="push" />
              {i === 0 && <StoreySwitch account={first} />}
            </div>
            <Plan account={accounts[i]!} storey={storey} label={`Plan of storey ${storey}, ${name}`} />
          </section>
        ))}
      </div>
      <section className="sheet compare-rooms" aria-label="Rooms compared">
        <PlanLegend />
        <CompareTable first={first} second={second} names={[states[0]!.name, states[1]!.name]} />
      </section>
    </>
  );
};
