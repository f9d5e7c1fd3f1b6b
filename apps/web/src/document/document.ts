import {
  applyState,
  diffJobs,
  EditRefused,
  editState,
  historyEntry,
  type Job,
  type JobError,
  pushStep,
  readJob,
  redo as redoStep,
  type UndoResult,
  undo as undoStep,
} from '@airledger/job';
import { useWorkbench, type Workbench } from '../state/store.ts';
import { standing } from './standing.ts';
import { surveyStates } from './survey-states.ts';
import { whoAmI } from './who.ts';

const set = useWorkbench.setState;
const get = useWorkbench.getState;

export type EditResult = { readonly ok: true } | { readonly ok: false; readonly errors: readonly JobError[] };

type EditOptions = { readonly gesture?: string };

/**
 * Edits the job in hand within the state in view; one step of history. `change` gets the house as it stands in that
 * state, moves of the same gesture included. Moves with the same `gesture` make one step, and are read in full only
 * when the gesture ends. Where the job would not read, nothing changes and the last good value stands.
 */
export const edit = (label: string, change: (resolved: Job) => Job, options?: EditOptions): EditResult => {
  const { viewed } = get();
  return editTyped(label, (job) => editState(job, viewed, change), options);
};

/** Edits the job as typed, states and all; otherwise as `edit`. */
export const editTyped = (
  label: string,
  change: (typed: Job) => Job,
  { gesture }: EditOptions = {},
): EditResult => {
  if (get().gesture && get().gesture?.name !== gesture) endGesture();
  const { typed, gesture: going } = get();
  if (!typed) return refusal('No house is open. Open one first.');
  try {
    const next = change(typed);
    if (next === typed) return { ok: true };
    if (gesture === undefined) return settle(label, typed, next);
    set({ typed: next, gesture: going ?? { name: gesture, label, before: typed } });
    return { ok: true };
  } catch (error) {
    return refusal(messageOf(error));
  }
};

/**
 * Ends the moves of a gesture: they become one step, if the job reads. Otherwise all of them are taken back and the
 * errors are returned.
 */
export const endGesture = (): EditResult => {
  const { gesture, typed } = get();
  if (!gesture || !typed) return { ok: true };
  const { label, before } = gesture;
  set({ typed: before, gesture: undefined });
  return settle(label, before, typed);
};

const settle = (label: string, before: Job, next: Job): EditResult => {
  const read = readJob(next);
  if ('errors' in read) return { ok: false, errors: read.errors };
  const diff = diffJobs(before, next);
  if (diff.length === 0) return { ok: true };
  const { steps, past } = get();
  replaceTyped(next, label);
  set({ steps: pushStep(steps, { what: label, diff }), past: [...past, 'edit'], future: [] });
  return { ok: true };
};

/** Puts another version of the job in hand in its place, and writes down by whom it was changed and how. */
export const replaceTyped = (next: Job, what: string, who = whoAmI() || 'someone here'): void => {
  const { typed, job, history } = get();
  const entry = historyEntry(typed!, next, { at: new Date(), who, what });
  set({
    ...standing(next),
    typed: next,
    job: surveyStates(next, { job: typed!, opened: job! }),
    ...(entry && { history: [...history, entry] }),
  });
};

/** The job as it stands in the state in view. */
export const useResolvedJob = (): Job | undefined =>
  useWorkbench(({ typed, viewed }) => typed && applyState(typed, viewed));

/** The job as typed: the first state, and the changes of the later ones. */
export const useTypedJob = (): Job | undefined => useWorkbench(({ typed }) => typed);

export const canUndo = ({ past, steps }: Workbench): boolean => past.length > 0 || steps.past.length > 0;

export const canRedo = ({ future, steps }: Workbench): boolean =>
  future.length > 0 || steps.future.length > 0;

/** Takes the last step back, whether it was an edit or only tried. */
export const undo = (): EditResult => {
  endGesture();
  const { past, future, trials, typed, steps } = get();
  const last = past.at(-1);
  if (last !== undefined && last !== 'edit') {
    set({ trials: last, past: past.slice(0, -1), future: [trials, ...future], moving: undefined });
    return { ok: true };
  }
  const result = typed && undoStep(typed, steps);
  if (!result) return { ok: true };
  const done = adopt(result, 'Undone');
  if (done.ok) set({ past: past.slice(0, -1), future: ['edit', ...future] });
  return done;
};

/** Makes the last step that was taken back again. */
export const redo = (): EditResult => {
  endGesture();
  const { past, future, trials, typed, steps } = get();
  const [next, ...rest] = future;
  if (next !== undefined && next !== 'edit') {
    set({ trials: next, past: [...past, trials], future: rest, moving: undefined });
    return { ok: true };
  }
  const result = typed && redoStep(typed, steps);
  if (!result) return { ok: true };
  const done = adopt(result, 'Done again');
  if (done.ok) set({ past: [...past, 'edit'], future: rest });
  return done;
};

const adopt = (result: UndoResult, how: string): EditResult => {
  const { what } = result.step;
  if ('clashes' in result)
    return refusal(
      `"${what}" cannot be taken back or made again, as ${result.clashes.map(({ path }) => path).join(', ')} has been changed elsewhere since.`,
    );
  const read = readJob(result.job);
  if ('errors' in read) return { ok: false, errors: read.errors };
  replaceTyped(result.job, `${how}: ${what}`);
  set({ steps: result.stack });
  return { ok: true };
};

const messageOf = (error: unknown): string =>
  error instanceof EditRefused || error instanceof Error ? error.message : String(error);

/** What an edit returns that cannot be made, in words. */
export const refusal = (message: string): EditResult => ({
  ok: false,
  errors: [{ path: '', value: '', expected: '', remedy: '', message }],
});
