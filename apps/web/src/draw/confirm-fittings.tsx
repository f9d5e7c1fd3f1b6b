import { asFittings, fittingsFor, type Job, type ProposedFitting } from '@airledger/job';
import { useMemo } from 'react';
import { useDraw } from './draw-store.ts';
import { perform } from './hear.ts';
import { toBoard } from './to-board.ts';

type Fittings = NonNullable<NonNullable<Job['systems']>[number]['parts'][number]['fittings']>;

const nameOf = (fitting: Fittings[number]): string => (typeof fitting === 'string' ? fitting : fitting.name);

/** Beside a duct just drawn: the fittings that its drawing speaks for, each to be kept or left out. */
export const ConfirmFittings = ({ job }: { job: Job }) => {
  const confirm = useDraw((state) => state.confirm);
  const part = job.systems
    ?.find(({ id }) => id === confirm?.system)
    ?.parts.find(({ id }) => id === confirm?.part);
  const proposed = useMemo(
    (): readonly ProposedFitting[] => (confirm && part ? fittingsFor(job, confirm.system, confirm.part) : []),
    [job, confirm, part],
  );
  if (!confirm || !part || proposed.length === 0) return null;
  const kept = new Set((part.fittings ?? []).map(nameOf));
  const set = (fitting: ProposedFitting, keep: boolean): void => {
    const wanted = proposed.filter(({ name }) => (name === fitting.name ? keep : kept.has(name)));
    useDraw.setState({
      note: perform({
        label: `${keep ? 'Keep' : 'Leave out'} ${fitting.name} of ${part.id}`,
        change: (now) => ({
          ...now,
          systems: now.systems!.map((system) => ({
            ...system,
            parts: system.parts.map((each) =>
              each.id === part.id ? { ...each, fittings: [...asFittings(wanted)] } : each,
            ),
          })),
        }),
      }),
    });
  };
  return (
    <section className="confirm-fittings" aria-label={`Fittings of ${part.name ?? part.id}`}>
      <h3>Fittings of {part.name ?? part.id}</h3>
      <p className="quiet">Proposed from the drawing. Untick what is not there.</p>
      {proposed.map((fitting) => (
        <label key={fitting.name}>
          <input
            type="checkbox"
            checked={kept.has(fitting.name)}
            onChange={(event) => set(fitting, event.target.checked)}
          />
          <span>
            {fitting.count > 1 ? `${fitting.count} × ` : ''}
            {fitting.name}
            <small className="quiet">{fitting.why}</small>
          </span>
        </label>
      ))}
      <button
        type="button"
        className="plain-button"
        onClick={() => {
          useDraw.setState({ confirm: undefined });
          toBoard();
        }}
      >
        Confirm fittings
      </button>
    </section>
  );
};
