import {
  type Account,
  account,
  type Explanation,
  explainShortage,
  type Mode,
  modes,
  type RangedExplanation,
  type Survey,
} from '@airledger/engine';
import { calibratedSurvey } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { explainWithRange } from '@airledger/engine/explain/explain-draws';
import { readingsOf, surveyOf } from '@airledger/job';
import { type Command, Option } from 'commander';
import { BadInput } from './bad-input.ts';
import { calibrateWithProgress } from './calibrate-with-progress.ts';
import { explanationText } from './explanation-text.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { chosenState, readJobFile } from './read-house.ts';

type Options = JobOptions & {
  readonly room?: string;
  readonly mode: Mode | 'both';
  readonly readings: boolean;
};

/** Why one room is short of air on one design day; with ranges where readings tell them. */
export type Explained = {
  readonly mode: Mode;
  readonly name: string;
  readonly explanation: Explanation | RangedExplanation;
};

/** Houses drawn for the ranges of causes. */
const draws = 40;

/** `airledger explain`: why rooms are short of air, split over causes that add up to the shortage. */
export const explainCommand = (): Command =>
  jobCommand(
    'explain',
    'npx airledger explain demo/1-quail-run-lane.airledger.json --room bedroom-3 --mode cooling --no-readings',
  )
    .option('--room <id>', 'only this room; otherwise every room that is short')
    .addOption(new Option('--mode <mode>', 'design day').choices([...modes, 'both']).default('both'))
    .option('--no-readings', 'the house as surveyed, without what readings say of it')
    .action(
      async (path: string, { json, units, state, weather, room, mode, readings: usesReadings }: Options) => {
        const job = await readJobFile(path, weather);
        const id = chosenState(job, state);
        const survey = surveyOf(job, id);
        const rooms = survey.rooms.map((one) => one.id);
        if (room !== undefined && !rooms.includes(room))
          throw new BadInput(`There is no room "${room}" in this house; it has: ${rooms.join(', ')}.`);
        const { readings } = readingsOf(job, id, survey);
        const wanted = modes.filter((one) => mode === 'both' || one === mode);
        const explained: Explained[] = [];
        for (const one of wanted) {
          const calibration =
            usesReadings && readings.length > 0
              ? calibrateWithProgress(survey, readings, { draws, mode: one })
              : undefined;
          explained.push(...explainAll(survey, calibration, one, room));
        }
        const text = json
          ? JSON.stringify({ name: survey.name, state: survey.state, rooms: explained }, null, 2)
          : explanationText(survey, explained, units);
        process.stdout.write(`${text}\n`);
      },
    );

const explainAll = (
  survey: Survey,
  calibration: Calibration | undefined,
  mode: Mode,
  only: string | undefined,
): readonly Explained[] => {
  const house: Account = account(calibration ? calibratedSurvey(survey, calibration) : survey, mode);
  const short = house.rooms
    .filter(({ room, needed_m3s, delivered_m3s }) =>
      only === undefined ? needed_m3s > delivered_m3s && needed_m3s > 0 : room === only,
    )
    .toSorted((a, b) => b.needed_m3s - b.delivered_m3s - (a.needed_m3s - a.delivered_m3s));
  return short.map(({ room, name }) => ({
    mode,
    name,
    explanation: calibration
      ? explainWithRange(house, survey, calibration, room)
      : explainShortage(house, room),
  }));
};
