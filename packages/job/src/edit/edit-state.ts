import type { Change, Job } from '../schema/job-schema.ts';
import { applyChange, applyState, changeProblem, pathOf, stateIds } from '../states/apply-state.ts';
import { brokenAt, valueAt } from '../states/job-path.ts';
import { setField } from '../states/set-field.ts';
import { EditRefused } from './edit-refused.ts';

type Bag = Readonly<Record<string, unknown>>;
const isBag = (value: unknown): value is Bag =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isTyped = (value: Bag): boolean => 'value' in value;

const idsOf = (list: readonly unknown[]): readonly string[] | undefined => {
  const ids = list.map((item) => (isBag(item) ? item.id : undefined));
  return ids.every((id) => typeof id === 'string') && new Set(ids).size === ids.length
    ? (ids as string[])
    : undefined;
};

const joined = (path: string, key: string): string => (path === '' ? key : `${path}/${key}`);

const listChanges = (
  before: readonly unknown[],
  after: readonly unknown[],
  path: string,
): readonly Change[] => {
  const [ids, now] = [idsOf(before), idsOf(after)];
  const whole: Change = { set: path, to: after };
  if (!ids || !now) return [whole];
  const kept = ids.filter((id) => now.includes(id));
  const added = now.slice(kept.length);
  // Records that stay keep their order and new ones follow them: anything else is told as a new list.
  if (kept.some((id, i) => now[i] !== id) || added.some((id) => ids.includes(id))) return [whole];
  return [
    ...ids.filter((id) => !now.includes(id)).map((id): Change => ({ remove: joined(path, id) })),
    ...kept.flatMap((id) =>
      changesBetween(before[ids.indexOf(id)], after[now.indexOf(id)], joined(path, id)),
    ),
    ...added.map((id): Change => ({ add: path, item: after[now.indexOf(id)] })),
  ];
};

/** Changes that lead from one house to another: fields set or taken away, records added or removed. */
export const changesBetween = (before: unknown, after: unknown, path = ''): readonly Change[] => {
  if (before === after) return [];
  if (Array.isArray(before) && Array.isArray(after))
    return JSON.stringify(before) === JSON.stringify(after) ? [] : listChanges(before, after, path);
  if (!isBag(before) || !isBag(after) || isTyped(before) || isTyped(after))
    return JSON.stringify(before) === JSON.stringify(after) ? [] : [{ set: path, to: after }];
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((key): readonly Change[] => {
    if (after[key] === undefined) return before[key] === undefined ? [] : [{ remove: joined(path, key) }];
    if (before[key] === undefined) return [{ set: joined(path, key), to: after[key] }];
    return changesBetween(before[key], after[key], joined(path, key));
  });
};

/** Path of the record that a state has added, when `path` leads to it or into it. */
const addedRecord = (change: Change, path: string): string | undefined => {
  if (!('add' in change) || !isBag(change.item) || typeof change.item.id !== 'string') return undefined;
  const record = `${change.add}/${change.item.id}`;
  return path === record || path.startsWith(`${record}/`) ? record : undefined;
};

/** A change within a record that the same state has added is made in that record; undefined when it is not such a one. */
const withinAdded = (changes: readonly Change[], change: Change): readonly Change[] | undefined => {
  const path = pathOf(change);
  const at = changes.findIndex((each) => addedRecord(each, path) !== undefined);
  if (at < 0) return undefined;
  const add = changes[at] as Extract<Change, { add: string }>;
  const record = addedRecord(add, path)!;
  if (path === record && 'remove' in change)
    return changes.filter((each, i) => i !== at && !`${pathOf(each)}/`.startsWith(`${record}/`));
  const inside = path.slice(record.length + 1);
  if (changes.some((each, i) => i > at && `${pathOf(each)}/`.startsWith(`${record}/`))) return undefined;
  const holder = { record: add.item } as unknown as Job;
  const item = (
    applyChange(holder, {
      ...change,
      ...('set' in change
        ? { set: `record/${inside}` }
        : 'add' in change
          ? { add: `record/${inside}` }
          : { remove: `record/${inside}` }),
    } as Change) as unknown as { record: unknown }
  ).record;
  return changes.with(at, { ...add, item });
};

const changeState = (job: Job, stateId: string, change: Change): Job => {
  const position = stateIds(job).indexOf(stateId);
  const state = job.states?.[position];
  const { states: _, ...base } = job;
  const into = (changes: readonly Change[]): Job => ({
    ...job,
    states: job.states!.with(position, { ...state!, changes: [...changes] }),
  });
  if (state) {
    const inside = withinAdded(state.changes, change);
    if (inside) return into(inside);
  }
  if (!('add' in change))
    return setField(job, stateId, pathOf(change), 'set' in change ? change.to : undefined);
  const list = valueAt(base, change.add);
  const touched = state?.changes.some((each) => {
    const path = pathOf(each);
    return path === change.add || change.add.startsWith(`${path}/`);
  });
  const inBase =
    position === 0 &&
    !touched &&
    brokenAt(base, change.add) === undefined &&
    (list === undefined || Array.isArray(list));
  if (!state || inBase) {
    const changed = applyChange(base as Job, change);
    return job.states === undefined ? changed : { ...changed, states: job.states };
  }
  return into([...state.changes, change]);
};

/** Changes of later states that lead to what is no longer there go with it. */
const withoutDangling = (job: Job, from: number): Job => {
  if (!job.states) return job;
  const { states, ...base } = job;
  let house: Job = base as Job;
  const next = states.map((state, i) => {
    const kept = state.changes.filter((change) => {
      if (i > from && changeProblem(house, change)) return false;
      house = applyChange(house, change);
      return true;
    });
    return kept.length === state.changes.length ? state : { ...state, changes: kept };
  });
  return next.every((state, i) => state === states[i]) ? job : { ...job, states: next };
};

/**
 * The job with an edit made in one of its states. `edit` gets the house of that state, as `applyState` gives it, and
 * returns it changed; what differs becomes changes of that state (`set`, `add`, `remove`), or, in the first state, of the
 * house itself. Later states keep their own changes, without those that lead to what the edit has removed. Reading the
 * result may still find errors (a later state that refers to what is gone): check it before keeping it.
 */
export const editState = (job: Job, stateId: string, edit: (house: Job) => Job): Job => {
  const position = stateIds(job).indexOf(stateId);
  if (position < 0) throw new EditRefused(`There is no state "${stateId}".`);
  const house = applyState(job, stateId);
  const edited = edit(house);
  if (edited === house) return job;
  if (edited.states !== undefined) throw new EditRefused('An edit of a state cannot add states to it.');
  const changes = changesBetween(house, edited);
  // Without changes of its own, the first state is the house.
  if (position === 0 && (job.states?.[0]?.changes.length ?? 0) === 0)
    return withoutDangling(job.states === undefined ? edited : { ...edited, states: job.states }, 0);
  return withoutDangling(
    changes.reduce((next, change) => changeState(next, stateId, change), job),
    position,
  );
};

/** The job with one change of a state taken back alone; the others stay, without those that depended on it. */
export const takeBackChange = (job: Job, stateId: string, index: number): Job => {
  const position = stateIds(job).indexOf(stateId);
  const state = job.states?.[position];
  if (state?.changes[index] === undefined)
    throw new EditRefused(`"${stateId}" has no change number ${index + 1}.`);
  const changed: Job = {
    ...job,
    states: job.states!.with(position, { ...state, changes: state.changes.toSpliced(index, 1) }),
  };
  return withoutDangling(changed, position - 1);
};

/** A state more behind the last (or behind `after`), with no changes yet; a job without states gets its first one too. */
export const addState = (
  job: Job,
  { id, name, after }: { readonly id: string; readonly name?: string; readonly after?: string },
): Job => {
  const states = job.states?.length ? job.states : [{ id: 'as-found', name: 'As found', changes: [] }];
  if (states.some((state) => state.id === id)) throw new EditRefused(`There is a state "${id}" already.`);
  const at = after === undefined ? states.length - 1 : states.findIndex((state) => state.id === after);
  if (at < 0) throw new EditRefused(`There is no state "${after}".`);
  return {
    ...job,
    states: states.toSpliced(at + 1, 0, { id, ...(name !== undefined && { name }), changes: [] }),
  };
};
