import { usualTolerance_K } from '@airledger/engine/season/comfort';
import {
  type Goal,
  goalKinds,
  type Job,
  type PlanRequest,
  planningYear,
  planRepairs,
  planToState,
  type RepairPlan,
  type RepairProgress,
  writeJob,
} from '@airledger/job';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { BadInput } from './bad-input.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { progress } from './progress.ts';
import { chosenState, readJobFile } from './read-house.ts';
import { readText } from './read-text.ts';
import { repairJson } from './repair-json.ts';
import { repairText } from './repair-text.ts';
import { writeWhole } from './write-file.ts';

type Options = JobOptions & {
  readonly goal: Goal['kind'];
  readonly budget?: number;
  readonly room?: readonly string[];
  readonly tolerance?: number;
  readonly must?: readonly string[];
  readonly not?: readonly string[];
  readonly write?: string;
};

const several = (id: string, before: readonly string[] = []): readonly string[] => [...before, id];

/** "$3,000" or "3000". */
const money = (text: string): number => {
  const amount = Number(text.replace(/[$,\s]/g, ''));
  if (!(amount >= 0)) throw new InvalidArgumentError('A budget is an amount of money, as "$3000".');
  return amount;
};

/** "2 °F", "1.5 K" or a bare number of kelvins. */
const kelvins = (text: string): number => {
  const [, number, unit = 'K'] = /^\s*([\d.]+)\s*(K|°?F|°?C)?\s*$/i.exec(text) ?? [];
  const value = Number(number);
  if (!(value > 0)) throw new InvalidArgumentError('A tolerance is a difference of temperature, as "2 °F".');
  return /f/i.test(unit) ? value / 1.8 : value;
};

/** `airledger repair`: the best set of repairs for a goal, in the order of work. */
export const repairCommand = (): Command =>
  jobCommand('repair', 'npx airledger repair demo/1-quail-run-lane.airledger.json --goal rooms')
    .addOption(
      new Option('--goal <goal>', 'what the plan is for').choices(goalKinds).default('rooms' as const),
    )
    .option('--budget <money>', 'most that the repairs may cost, as "$3000"', money)
    .option('--room <id>', 'with --goal rooms: this room (again for more); all when not given', several)
    .option('--tolerance <difference>', 'how far a room may be off its set point, as "2 °F"', kelvins)
    .option('--must <id>', 'repair that must be done (again for more)', several)
    .option('--not <id>', 'repair that must not be done (again for more)', several)
    .option('--write <file>', 'write the job with the plan as its state "as-specified"')
    .action(async (path: string, options: Options) => {
      const { json, units, write } = options;
      const job = await readJobFile(path, options.weather);
      const state = chosenState(job, options.state);
      const plan = planned(job, state, {
        ...requestOf(options),
        year: planningYear(job, state, options.weather && (await readText(options.weather))),
      });
      const text = json ? JSON.stringify(repairJson(plan), null, 2) : repairText(plan, units);
      process.stdout.write(`${text}\n`);
      if (write !== undefined)
        await writeWhole(write, writeJob(planToState(job, state, plan.chosen.repairs)));
    });

const requestOf = ({ goal, budget, room, tolerance, must, not }: Options): PlanRequest => {
  if (room !== undefined && goal !== 'rooms') throw new BadInput('--room goes with --goal rooms.');
  const tolerance_K = tolerance ?? usualTolerance_K;
  const asked: Goal =
    goal === 'rooms' ? { kind: goal, tolerance_K, ...(room && { rooms: room }) } : { kind: goal };
  if (goal === 'comfort' && budget === undefined)
    throw new BadInput('More comfort can always be had for more money: say how much with --budget.');
  return { goal: asked, budget, must, mustNot: not };
};

/** The plan, with how far it is on stderr. @throws BadInput when rooms or locks name nothing of this house. */
const planned = (job: Job, state: string, request: PlanRequest): RepairPlan => {
  const { goal } = request;
  const unknown = (goal.kind === 'rooms' ? (goal.rooms ?? []) : []).filter(
    (id) => !job.rooms.some((room) => room.id === id),
  );
  if (unknown.length > 0)
    throw new BadInput(
      `There is no room "${unknown[0]}"; there are: ${job.rooms.map(({ id }) => id).join(', ')}.`,
    );
  const shown = progress('Planning');
  try {
    const planning = planRepairs(job, state, request);
    for (;;) {
      const { done, value } = planning.next();
      if (done) return value;
      const stage = stages.indexOf(value.doing);
      shown.at((stage + Math.min(1, value.done / value.of)) / stages.length);
    }
  } catch (error) {
    if (error instanceof RangeError) throw new BadInput(error.message);
    throw error;
  } finally {
    shown.end();
  }
};

const stages: readonly RepairProgress['doing'][] = [
  'searching',
  'drawing the value curve',
  'valuing each repair',
  'trying other houses',
];
