import {
  type Account,
  account,
  explainImbalance,
  explainRoom,
  type Imbalance,
  imbalanceWithRange,
  type Mode,
  modes,
  type RangedImbalance,
  type RangedRoomExplanation,
  type RoomExplanation,
  type RoomStanding,
  type Survey,
  type UnevenGroups,
  unevenGroups,
} from '@airledger/engine';
import { calibratedSurvey } from '@airledger/engine/calibrate/calibrate';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { explainWithRange } from '@airledger/engine/explain/explain-with-range';
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

/** Why one room is short of air and heat on one design day; with ranges where readings tell them. */
export type Explained = {
  readonly mode: Mode;
  readonly name: string;
  readonly standing: RoomStanding;
} & (RoomExplanation | RangedRoomExplanation);

/** Where the house is uneven on one design day, and why. */
export type ExplainedImbalance = {
  readonly mode: Mode;
  readonly between: UnevenGroups['kind'];
  readonly imbalance: Imbalance | RangedImbalance;
};

/** Houses drawn for the ranges of causes. */
const draws = 40;

/** `airledger explain`: why rooms are short of air and heat and the house uneven, split over causes that add up. */
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
        const ids = survey.rooms.map((one) => one.id);
        if (room !== undefined && !ids.includes(room))
          throw new BadInput(`There is no room "${room}" in this house; it has: ${ids.join(', ')}.`);
        const { readings } = readingsOf(job, id, survey);
        const wanted = modes.filter((one) => mode === 'both' || one === mode);
        const rooms: Explained[] = [];
        const imbalances: ExplainedImbalance[] = [];
        for (const one of wanted) {
          const calibration =
            usesReadings && readings.length > 0
              ? calibrateWithProgress(survey, readings, { draws, mode: one })
              : undefined;
          const house = account(calibration ? calibratedSurvey(survey, calibration) : survey, one);
          rooms.push(...explainRooms(house, survey, calibration, room));
          if (room === undefined) imbalances.push(...explainImbalances(house, survey, calibration));
        }
        const text = json
          ? JSON.stringify(
              {
                name: survey.name,
                state: survey.state,
                rooms: rooms.map(({ standing: _, ...rest }) => rest),
                imbalances,
              },
              null,
              2,
            )
          : explanationText(survey, rooms, imbalances, units);
        process.stdout.write(`${text}\n`);
      },
    );

/** Off its set point by this much, on the side that was to be kept away, a room lacks heat (or cooling), K. */
const felt_K = 0.5;

const explainRooms = (
  house: Account,
  survey: Survey,
  calibration: Calibration | undefined,
  only: string | undefined,
): readonly Explained[] => {
  const lacks_K = ({ setPoint_C, predicted_C }: RoomStanding) =>
    (house.mode === 'heating' ? 1 : -1) * (setPoint_C - predicted_C);
  const short_m3s = ({ needed_m3s, delivered_m3s }: RoomStanding) => needed_m3s - delivered_m3s;
  return house.rooms
    .filter((standing) =>
      only === undefined
        ? standing.needed_m3s > 0 && (short_m3s(standing) > 0 || lacks_K(standing) > felt_K)
        : standing.room === only,
    )
    .toSorted((a, b) => short_m3s(b) - short_m3s(a))
    .map((standing) => ({
      mode: house.mode,
      name: standing.name,
      standing,
      ...((calibration && explainWithRange(house, survey, calibration, standing.room)) ??
        explainRoom(house, standing.room)),
    }));
};

const explainImbalances = (
  house: Account,
  survey: Survey,
  calibration: Calibration | undefined,
): readonly ExplainedImbalance[] =>
  unevenGroups(house).map(({ kind, of, better, worse }) => ({
    mode: house.mode,
    between: kind,
    imbalance:
      (calibration && imbalanceWithRange(house, survey, calibration, of, better, worse)) ??
      explainImbalance(house, of, better, worse),
  }));
