import {
  type Check,
  type Mode,
  type RoomOff,
  roomsOff,
  type Survey,
  usedModes,
  wantsAir,
} from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { CandidateFacts } from './candidate.ts';
import { accountsOf, type BothAccounts } from './candidates-of.ts';
import { resizing } from './enlarge-runs.ts';
import { allowedDrift_K, type Before, type Goal, nearlyMet } from './goals.ts';
import { isHidden, partPath } from './house-parts.ts';
import { driftsOf, failedChecks } from './standing.ts';

/** A room that the best plan leaves beyond its tolerance in one season. */
export type RoomMiss = RoomOff & {
  /** Repairs on its own runs that were there to choose from, by name; none where it was not short as found. */
  readonly onItsRuns: readonly string[];
  /** All of its runs end in a finished wall or floor. */
  readonly hidden: boolean;
  /** What its runs one size larger, on top of the plan, would come to; absent where they cannot be widened or want no air. */
  readonly wider?: {
    readonly what: readonly string[];
    readonly drift_K: Readonly<Partial<Record<Mode, number>>>;
  };
};

/** What a plan that does not meet its goal misses. */
export type PlanMisses = { readonly rooms: readonly RoomMiss[]; readonly checks: readonly Check[] };

type Question = {
  readonly goal: Goal;
  readonly before: Before;
  readonly candidates: readonly CandidateFacts[];
  /** The house with the plan done. */
  readonly house: Job;
};

/** Rooms beyond their tolerance, or checks that fail, with the plan done; worst first. By the full model. */
export const planMisses = ({ goal, before, candidates, house }: Question): PlanMisses => {
  const accounts = accountsOf(surveyOf(house));
  if (goal.kind === 'code' || goal.kind === 'specification')
    return { rooms: [], checks: failedChecks(accounts).filter(({ group }) => group === goal.kind) };
  if (goal.kind !== 'rooms') return { rooms: [], checks: [] };
  const { survey } = accounts.heating;
  const off = roomsOff(
    usedModes(survey).map((mode) => accounts[mode]),
    (room, mode) => allowedDrift_K(goal, room, before.drift_K[mode]![before.rooms.indexOf(room)]!),
  );
  const rooms = off
    .filter(({ beyond_K }) => beyond_K >= nearlyMet)
    .map((miss) => ({
      ...miss,
      onItsRuns: repairsOnRuns(survey, candidates, miss.room),
      hidden: runsTo(survey, miss.room).every(({ part }) => isHidden(survey, part)),
      ...(wantsAir(miss) && widened(house, accounts, miss.room)),
    }));
  return { rooms, checks: [] };
};

const runsTo = (survey: Survey, room: string) =>
  survey.systems.flatMap((system) =>
    system.parts
      .filter(({ side, terminal }) => side === 'supply' && terminal?.room === room)
      .map((part) => ({ system, part })),
  );

const repairsOnRuns = (survey: Survey, candidates: readonly CandidateFacts[], room: string): string[] => {
  const runs = runsTo(survey, room).map(({ system, part }) => partPath(system.id, part.id));
  return candidates
    .filter(({ repair, where }) => repair.phase === 'rework' && where.some((path) => runs.includes(path)))
    .map(({ name }) => name);
};

const widened = (house: Job, near: BothAccounts, room: string): Pick<RoomMiss, 'wider'> => {
  const { survey } = near.heating;
  const larger = runsTo(survey, room).flatMap(({ system, part }) =>
    isHidden(survey, part) ? [] : resizing(survey, system, part),
  );
  if (larger.length === 0) return {};
  const after = driftsOf(accountsOf(surveyOf(larger.reduce((next, { apply }) => apply(next), house)), near));
  const at = survey.rooms.findIndex(({ id }) => id === room);
  return {
    wider: {
      what: larger.map(({ name }) => name),
      drift_K: Object.fromEntries(Object.entries(after).map(([mode, all]) => [mode, all[at]])),
    },
  };
};
