import {
  account,
  explainImbalance,
  explainRoom,
  type Imbalance,
  imbalanceWithRange,
  type Mode,
  type RangedImbalance,
  type RangedRoomExplanation,
  type RoomExplanation,
  type Survey,
  type UnitSystem,
  unevenGroups,
} from '@airledger/engine';
import { calibratedSurvey, calibrateSteps } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import {
  type CandidateReading,
  type NextReadingOptions,
  nextReading,
  type RankedReading,
} from '@airledger/engine/calibrate/next-reading';
import { type PressureFinding, pressureDiagnosis } from '@airledger/engine/diagnosis/pressure-diagnosis';
import { explainWithRange } from '@airledger/engine/explain/explain-with-range';
import type { Reading } from '@airledger/engine/readings/types';
import { expose } from 'comlink';

/** Houses drawn for the ranges: the page shows them to two figures, which more would not change. */
const draws = 120;

/** What was found, with what the pressures of the most probable house do. */
export type Found = {
  readonly calibration: Calibration;
  readonly pressures: readonly PressureFinding[];
};

/** Why a room is short, and where the house is uneven, in the house that the readings tell. */
export type RangedReasons = {
  readonly mode: Mode;
  readonly room: RoomExplanation | RangedRoomExplanation;
  readonly imbalances: readonly (Imbalance | RangedImbalance)[];
};

/** What the page asks of the estimator; one question at a time, ended by ending the worker. */
const estimator = {
  /** @param progress share of the work done, and the first ranges as soon as there are some */
  calibrate(
    survey: Survey,
    readings: readonly Reading[],
    system: string,
    units: UnitSystem,
    progress: (share: number, first?: Calibration) => void,
  ): Found {
    const steps = calibrateSteps(survey, readings, { system, draws });
    for (;;) {
      const step = steps.next();
      if (!step.done) {
        progress(step.value.share, step.value.first);
        continue;
      }
      const calibration = step.value;
      const house = account(calibratedSurvey(survey, calibration), calibration.mode);
      return { calibration, pressures: pressureDiagnosis(house, units) };
    }
  },

  /** Which of the readings that could be taken tells most per minute. */
  next(
    { survey, readings }: { readonly survey: Survey; readonly readings: readonly Reading[] },
    calibration: Calibration,
    candidates: readonly CandidateReading[],
    options: NextReadingOptions,
  ): readonly RankedReading[] {
    return nextReading(survey, readings, calibration, candidates, options);
  },

  /** Why a room is short of air and heat, and where the house is uneven, with the range of each cause. */
  explain(survey: Survey, calibration: Calibration, room: string): RangedReasons {
    const house = account(calibratedSurvey(survey, calibration), calibration.mode);
    return {
      mode: calibration.mode,
      room: explainWithRange(house, survey, calibration, room) ?? explainRoom(house, room),
      imbalances: unevenGroups(house).map(
        ({ of, better, worse }) =>
          imbalanceWithRange(house, survey, calibration, of, better, worse) ??
          explainImbalance(house, of, better, worse),
      ),
    };
  },
};

export type Estimator = typeof estimator;

expose(estimator);
