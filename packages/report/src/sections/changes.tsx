import { applyState, type Change, type Job, stateIds, valueAt } from '@airledger/job';
import { DataTable } from '../data-table.tsx';
import { capital, type HandoverInput, handedOver, stateName } from '../handover-input.ts';
import { typedText, words } from '../typed-words.ts';

/** What is done to the house between the state before and the state handed over, as the job says it. */
export const Changes = (input: HandoverInput) => {
  const { job, states } = input;
  const after = handedOver(input);
  if (states.length === 1) return null;
  const grouped = changesBetween(job, states[0].id, after.id);
  if (grouped.length === 0) return null;
  return (
    <>
      <h3>What changes</h3>
      <DataTable
        caption={`From ${stateName(job, states[0].id).toLowerCase()} to ${stateName(job, after.id).toLowerCase()}`}
        columns={[
          { head: 'What', width: 12 },
          { head: 'From', width: 22 },
          { head: 'To', width: 22 },
          { head: 'Where', width: 27 },
          { head: 'Note' },
        ]}
        rows={grouped.map(({ what, from, to, where, why }) => [
          what,
          from.join('; '),
          to,
          where.join(', '),
          why.join('; '),
        ])}
      />
    </>
  );
};

/** Fields whose own name would leave a contractor guessing. */
const fieldWords: Readonly<Record<string, string>> = {
  leaks: 'Leaks at 25 Pa',
  slack: 'Slack of flex',
  section: 'Size',
  face: 'Face of register or grille',
  coolingTable: 'Fan speed in cooling, as airflow at external static',
  heatingTable: 'Fan speed in heating, as airflow at external static',
};

type ChangeGroup = {
  readonly what: string;
  readonly to: string;
  readonly from: string[];
  readonly where: string[];
  readonly why: string[];
};

/** Changes of all states after `before` up to `after`; those that do the same in several places are one. */
const changesBetween = (job: Job, before: string, after: string): readonly ChangeGroup[] => {
  const ids = stateIds(job);
  const groups = new Map<string, ChangeGroup>();
  for (let s = ids.indexOf(before) + 1; s <= ids.indexOf(after); s++) {
    const found = applyState(job, ids[s - 1]!);
    for (const change of job.states?.[s]?.changes ?? []) {
      if (isDrawing(change)) continue;
      const { what, from, to, where } = inWords(job, found, change);
      const key = `${what}|${to}`;
      const group = groups.get(key) ?? { what, to, from: [], where: [], why: [] };
      groups.set(key, group);
      if (!group.from.includes(from)) group.from.push(from);
      group.where.push(where);
      if (change.why && !group.why.includes(change.why)) group.why.push(change.why);
    }
  }
  return [...groups.values()];
};

/** A line drawn elsewhere on the plan is no work of its own. */
const isDrawing = (change: Change): boolean => 'set' in change && change.set.endsWith('/path');

const inWords = (job: Job, found: Job, change: Change) => {
  if ('set' in change) {
    const segments = change.set.split('/');
    const field = segments.pop() ?? change.set;
    return {
      what: fieldWords[field] ?? capital(words(field)),
      from: typedText(valueAt(found, change.set)),
      to: typedText(change.to),
      where: placeWords(job, segments),
    };
  }
  if ('add' in change)
    return {
      what: `New in ${words(change.add.split('/').at(-1)!)}`,
      from: 'none',
      to: typedText(change.item),
      where: placeWords(job, change.add.split('/').slice(0, -1)),
    };
  const segments = change.remove.split('/');
  return {
    what: `Removed: ${words(segments.at(-1)!)}`,
    from: typedText(valueAt(found, change.remove)),
    to: 'none',
    where: placeWords(job, segments.slice(0, -1)),
  };
};

/** The thing a path leads to: the name of the nearest record that has one, or its last id in words. */
const placeWords = (job: Job, segments: readonly string[]): string => {
  for (let length = segments.length; length > 0; length--) {
    const value = valueAt(job, segments.slice(0, length).join('/'));
    if (typeof value === 'object' && value !== null && 'name' in value && typeof value.name === 'string')
      return [value.name, ...segments.slice(length).map(words)].join(', ');
  }
  return segments.length === 0 ? 'house' : words(segments.at(-1)!);
};
