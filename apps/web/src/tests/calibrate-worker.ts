import type { Survey } from '@airledger/engine';
import { calibrateSteps } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import type { Reading } from '@airledger/engine/readings/types';
import { expose } from 'comlink';

/** Houses drawn for the ranges: the page shows them to two figures, which more would not change. */
const draws = 120;

/** What the page asks of the estimator; one question at a time, ended by ending the worker. */
const estimator = {
  /** @param progress share of the work done, and the first ranges as soon as there are some */
  calibrate(
    survey: Survey,
    readings: readonly Reading[],
    system: string,
    progress: (share: number, first?: Calibration) => void,
  ): Calibration {
    const steps = calibrateSteps(survey, readings, { system, draws });
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      progress(step.value.share, step.value.first);
    }
  },
};

export type Estimator = typeof estimator;

expose(estimator);
