import type { Survey, UnitSystem } from '@airledger/engine';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import type { Reading } from '@airledger/engine/readings/types';
import { proxy, type Remote, wrap } from 'comlink';
import { create } from 'zustand';
import type { Estimator, Found } from './calibrate-worker.ts';

/** What the findings were worked out from. */
export type Question = {
  readonly survey: Survey;
  readonly readings: readonly Reading[];
  readonly system: string;
  readonly units: UnitSystem;
};

export type Findings = {
  readonly status: 'none' | 'working' | 'done' | 'stopped' | 'failed';
  /** Share of the work that is done. */
  readonly share: number;
  readonly asked?: Question;
  readonly calibration?: Calibration;
  /** The findings before the last reading came in, of the same house and state. */
  readonly before?: Calibration;
  readonly pressures: Found['pressures'];
  readonly failure?: string;
};

export const useFindings = create<Findings>(() => ({ status: 'none', share: 0, pressures: [] }));

const set = useFindings.setState;

type Running = { readonly worker: Worker; readonly estimator: Remote<Estimator> };
let running: Running | undefined;

const start = (): Running => {
  const worker = new Worker(new URL('./calibrate-worker.ts', import.meta.url), { type: 'module' });
  return { worker, estimator: wrap<Estimator>(worker) };
};

/** Stops what is being worked out; what was found before stands. */
export const stopFindings = (): void => {
  running?.worker.terminate();
  running = undefined;
  set(({ status }) => (status === 'working' ? { status: 'stopped' } : {}));
};

/** The estimator that found what is on the page; one of its own after a stop. */
export const estimator = (): Remote<Estimator> => {
  running ??= start();
  return running.estimator;
};

/** Works the findings out anew; an older question that is still going on is given up. */
export const askFindings = async (question: Question): Promise<void> => {
  running?.worker.terminate();
  const own = start();
  running = own;
  const { asked, calibration, status } = useFindings.getState();
  const isSameHouse =
    asked?.survey.name === question.survey.name &&
    asked.survey.state === question.survey.state &&
    asked.system === question.system;
  set({
    status: 'working',
    share: 0,
    asked: question,
    failure: undefined,
    // Half an answer is no measure of what the next reading narrows.
    before: isSameHouse && status === 'done' ? calibration : undefined,
    ...(!isSameHouse && { calibration: undefined, pressures: [] }),
  });
  const isWanted = () => running === own;
  try {
    const found = await own.estimator.calibrate(
      question.survey,
      question.readings,
      question.system,
      question.units,
      proxy((share: number, first?: Calibration) => {
        if (isWanted()) set({ share, ...(first && { calibration: first }) });
      }),
    );
    if (isWanted()) set({ status: 'done', share: 1, ...found });
  } catch (error) {
    if (isWanted())
      set({ status: 'failed', failure: error instanceof Error ? error.message : String(error) });
  }
};
