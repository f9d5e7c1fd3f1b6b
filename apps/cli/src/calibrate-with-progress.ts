import type { Survey } from '@airledger/engine';
import { type CalibrateOptions, calibrateSteps } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import type { Reading } from '@airledger/engine/readings/types';
import { progress } from './progress.ts';

/** The engine's calibration, with a bar of how far it has come. */
export const calibrateWithProgress = (
  survey: Survey,
  readings: readonly Reading[],
  options: CalibrateOptions,
): Calibration => {
  const bar = progress('Calibrating');
  const steps = calibrateSteps(survey, readings, options);
  for (;;) {
    const step = steps.next();
    if (step.done) {
      bar.end();
      return step.value;
    }
    bar.at(step.value.share);
  }
};
