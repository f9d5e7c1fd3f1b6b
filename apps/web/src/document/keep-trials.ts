import { type Dimension, type Fact, formatQuantity, type Survey, type UnitSystem } from '@airledger/engine';
import type { Job, JobPart, Typed } from '@airledger/job';
import { noTrials, useWorkbench } from '../state/store.ts';
import { splitHandle, type Trials } from '../trial/trials.ts';
import { type EditResult, edit } from './document.ts';

/** Makes what is tried in the state in view an edit of it; how each value is known stays as it was. */
export const keepTrials = (): EditResult => {
  const { viewed, trials, job, units } = useWorkbench.getState();
  const tried = trials[viewed] ?? noTrials;
  const survey = job?.surveys[viewed];
  if (!survey || Object.keys(tried).length === 0) return { ok: true };
  const count = Object.keys(tried).length;
  const result = edit(count === 1 ? 'One tried value kept' : `${count} tried values kept`, (house) =>
    withTrials(house, tried, survey, units),
  );
  if (result.ok) useWorkbench.setState((state) => ({ trials: { ...state.trials, [viewed]: noTrials } }));
  return result;
};

/** The house with tried values typed into it, in the unit system given. */
export const withTrials = (house: Job, trials: Trials, survey: Survey, units: UnitSystem): Job =>
  Object.entries(trials).reduce((next, [id, value]) => withTrial(next, id, value, survey, units), house);

const withTrial = (
  house: Job,
  handle: string,
  value: number | boolean,
  { facts, systems }: Survey,
  units: UnitSystem,
): Job => {
  const { kind, owner, which } = splitHandle(handle);
  if (kind === 'door')
    return {
      ...house,
      doors: house.doors?.map((door) => (door.id === owner ? { ...door, open: value === true } : door)),
    };
  if (typeof value !== 'number') return house;
  const typed = (before: Typed | undefined, dimension: Dimension, fact: Fact | undefined): Typed => {
    const text = formatQuantity(value, dimension, units, digits[dimension]).replaceAll(',', '');
    if (typeof before === 'object') return { ...before, value: text };
    return before === undefined ? { value: text, known: fact?.howKnown ?? 'estimated' } : text;
  };
  const withLeak = (leaks: JobPart['leaks'], path: string): JobPart['leaks'] =>
    leaks?.map((leak, i) => {
      if (`${owner}/${leakName(leaks, i)}` !== which) return leak;
      // A leak has a flow or a word for it, never both.
      const { tightness: _, ...rest } = leak;
      return { ...rest, flow: typed(leak.flow, 'airflow', facts[`${path}/leaks/${leak.id ?? i}/flow`]) };
    });
  const onPart = (part: JobPart, path: string): JobPart => {
    const field = (key: 'slack' | 'damper' | 'insulation', dimension: Dimension): JobPart => ({
      ...part,
      [key]: typed(part[key], dimension, facts[`${path}/${key}`]),
    });
    if (kind === 'leak') return { ...part, leaks: withLeak(part.leaks, path) };
    if (kind === 'insulation') return field('insulation', 'resistance');
    if (kind === 'slack' || kind === 'damper') return field(kind, 'ratio');
    if (kind !== 'register' || !part.terminal) return part;
    const open = typed(part.terminal.open, 'ratio', facts[`${path}/terminal/open`]);
    return { ...part, terminal: { ...part.terminal, open } };
  };
  return {
    ...house,
    systems: house.systems?.map((system) => {
      const path = `systems/${system.id}`;
      const { airHandler } = system;
      if (owner === `${system.id}/air-handler` || owner === system.id) {
        const handlerPath = `${path}/airHandler`;
        if (kind === 'leak')
          return { ...system, airHandler: { ...airHandler, leaks: withLeak(airHandler.leaks, handlerPath) } };
        if (kind === 'filter') {
          const { filter } = airHandler;
          const drop = typed(filter?.drop, 'pressure', facts[`${handlerPath}/filter/drop`]);
          // A drop means nothing without its airflow, which may have come from a table until now.
          const flow_m3s = systems.find(({ id }) => id === system.id)!.airHandler.filter.flow_m3s;
          const at = filter?.at ?? {
            value: formatQuantity(flow_m3s, 'airflow', units, 1).replaceAll(',', ''),
            known: facts[`${handlerPath}/filter/at`]?.howKnown ?? 'assumed',
          };
          return { ...system, airHandler: { ...airHandler, filter: { ...filter, drop, at } } };
        }
        if (kind !== 'spread') return system;
        const leakage = system.leakage ?? [];
        const at = leakage.findIndex(({ side }) => side === which);
        const flow = typed(leakage[at]?.flow, 'airflow', facts[`${path}/leakage`]);
        const side = which as 'supply' | 'return';
        return {
          ...system,
          leakage: at < 0 ? [...leakage, { side, flow }] : leakage.with(at, { ...leakage[at]!, flow }),
        };
      }
      return {
        ...system,
        parts: system.parts.map((part) =>
          part.id === owner ? onPart(part, `${path}/parts/${part.id}`) : part,
        ),
      };
    }),
  };
};

/** Enough decimals for what a handle was set to. */
const digits: Partial<Record<Dimension, number>> = { airflow: 1, pressure: 3, ratio: 1 };

/** Name of a leak within its part, as the survey gives it. */
const leakName = (leaks: NonNullable<JobPart['leaks']>, i: number): string => {
  const { id, place } = leaks[i]!;
  return id ?? (leaks.some((other, j) => j < i && other.place === place) ? `${place}-${i + 1}` : place);
};
