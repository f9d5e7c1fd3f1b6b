import { account, type Survey } from '@airledger/engine';
import { calibratedSurvey } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { pressureDiagnosis } from '@airledger/engine/diagnosis/pressure-diagnosis';
import { fanFlowsOf } from '@airledger/engine/leakage-test/fan-flow-of';
import { leakageResults } from '@airledger/engine/leakage-test/leakage-results';
import { doubtsAbout } from '@airledger/engine/readings/doubts-about';
import type { Reading } from '@airledger/engine/readings/types';
import { type Command, InvalidArgumentError } from 'commander';
import { BadInput } from './bad-input.ts';
import { calibrateWithProgress } from './calibrate-with-progress.ts';
import { calibrationText } from './calibration-text.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { nextReadings } from './next-readings.ts';
import { readReadings } from './read-readings.ts';

type Options = JobOptions & { readonly system?: string; readonly draws: number; readonly goal: string };

/** `airledger calibrate`: where the air goes, by the readings, and which of them are doubtful. */
export const calibrateCommand = (): Command =>
  jobCommand('calibrate', 'npx airledger calibrate demo/1-quail-run-lane.airledger.json --draws 50')
    .option('--system <id>', 'system to calibrate; the first when not given')
    .option('--draws <number>', 'houses drawn for the ranges, 0 to 2000', wholeNumber, 200)
    .option(
      '--goal <goal>',
      'what the next reading is wanted for: repair, leakage, or the id of a room',
      'repair',
    )
    .action(async (path: string, { json, units, state, weather, system, draws, goal }: Options) => {
      const { job, survey, readings, sheets, doubts } = await readReadings(path, { state, weather });
      const ids = survey.systems.map(({ id }) => id);
      if (system !== undefined && !ids.includes(system))
        throw new BadInput(`There is no system "${system}" in this house; it has: ${ids.join(', ')}.`);
      requireGoal(survey, goal);
      const calibration = calibrateWithProgress(survey, readings, {
        draws,
        ...(system !== undefined && { system }),
      });
      const surveyed = account(survey, calibration.mode);
      const probable = account(calibratedSurvey(survey, calibration), calibration.mode);
      const fans = fanFlowsOf(readings, surveyed.systems);
      const found = {
        survey,
        readings,
        calibration,
        doubts: [...doubts, ...doubtsAbout(readings, survey, units)],
        tests: leakageResults(survey, sheets, fans, units),
        pressures: pressureDiagnosis(probable, units),
        next: nextReadings(job, surveyed, readings, calibration, goal),
      };
      process.stdout.write(
        `${json ? JSON.stringify(asJson(found), null, 2) : calibrationText(found, units)}\n`,
      );
    });

export type Found = {
  readonly survey: Survey;
  readonly readings: readonly Reading[];
  readonly calibration: Calibration;
  readonly doubts: ReturnType<typeof doubtsAbout>;
  readonly tests: ReturnType<typeof leakageResults>;
  /** Of the most probable house. */
  readonly pressures: ReturnType<typeof pressureDiagnosis>;
  readonly next: ReturnType<typeof nextReadings>;
};

const requireGoal = (survey: Survey, goal: string): void => {
  const rooms = survey.rooms.map(({ id }) => id);
  if (!['repair', 'leakage', ...rooms].includes(goal))
    throw new BadInput(
      `"${goal}" is no goal; it is repair, leakage or one of the rooms ${rooms.join(', ')}.`,
    );
};

const wholeNumber = (text: string): number => {
  const number = Number(text);
  if (!/^\d+$/.test(text) || number > 2000)
    throw new InvalidArgumentError('It is a whole number from 0 to 2000.');
  return number;
};

/** The solver's own vectors say nothing to another program. */
const asJson = ({ survey, calibration, readings, ...rest }: Found) => {
  const { draws, probable: _, unknowns: __, hypotheses, ...found } = calibration;
  return {
    name: survey.name,
    state: survey.state,
    readings: readings.length,
    fanFlows: readings.filter(({ subject }) => subject.kind === 'fan flow'),
    ...rest,
    calibration: {
      ...found,
      draws: draws.length,
      hypotheses: hypotheses.map(({ defects, probability }) => ({ defects, probability })),
    },
  };
};
