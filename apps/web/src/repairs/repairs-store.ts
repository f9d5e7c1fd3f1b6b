import type { Job, RepairPlan, RepairProgress } from '@airledger/job';
import { proxy, type Remote, wrap } from 'comlink';
import { create } from 'zustand';
import { type EditResult, editTyped } from '../document/document.ts';
import type { Planner, Wish } from './repairs-worker.ts';

export type Lock = 'must' | 'not';

/** What a plan was worked out from; `weather` is the text of a weather file. */
export type Asked = { readonly job: Job; readonly state: string; readonly weather: string | undefined };

export type Repairs = {
  readonly status: 'none' | 'working' | 'done' | 'stopped' | 'failed';
  readonly progress?: RepairProgress;
  readonly plan?: RepairPlan;
  readonly asked?: Asked;
  readonly failure?: string;
  /** By repair: it has to be done, or must not be. */
  readonly locks: Readonly<Record<string, Lock>>;
};

export const useRepairs = create<Repairs>(() => ({ status: 'none', locks: {} }));

const set = useRepairs.setState;

type Running = { readonly worker: Worker; readonly planner: Remote<Planner> };
let running: Running | undefined;

const start = (): Running => {
  const worker = new Worker(new URL('./repairs-worker.ts', import.meta.url), { type: 'module' });
  return { worker, planner: wrap<Planner>(worker) };
};

/** Stops the planning; a plan that was found before stands. */
export const stopPlanning = (): void => {
  running?.worker.terminate();
  running = undefined;
  set(({ status }) => (status === 'working' ? { status: 'stopped' } : {}));
};

export const lock = (repair: string, to: Lock | undefined): void =>
  set(({ locks: { [repair]: _, ...others } }) => ({
    locks: to === undefined ? others : { ...others, [repair]: to },
  }));

/** Plans anew; an older question that is still going on is given up. */
export const askPlan = async (job: Job, state: string, wish: Wish): Promise<void> => {
  running?.worker.terminate();
  const own = start();
  running = own;
  set({ status: 'working', progress: undefined, failure: undefined });
  const isWanted = () => running === own;
  try {
    const plan = await own.planner.plan(
      job,
      state,
      wish,
      proxy((progress: RepairProgress) => {
        if (isWanted()) set({ progress });
      }),
    );
    if (isWanted()) set({ status: 'done', plan, asked: { job, state, weather: wish.weather } });
  } catch (error) {
    if (isWanted())
      set({ status: 'failed', failure: error instanceof Error ? error.message : String(error) });
  }
};

/** Writes repairs into the job as its state "as specified", as one step that can be taken back. */
export const specify = async (repairs: readonly string[]): Promise<EditResult | undefined> => {
  const { asked } = useRepairs.getState();
  if (!asked) return undefined;
  const { worker, planner } = start();
  try {
    const job = await planner.specified(asked.job, asked.state, repairs);
    return editTyped(`Plan of ${repairs.length} repairs as specified`, () => job);
  } finally {
    worker.terminate();
  }
};
