import type { Account } from '@airledger/engine';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { nextReading, type RankedReading, type ReadingGoal } from '@airledger/engine/calibrate/next-reading';
import { isWorthReading } from '@airledger/engine/calibrate/rank-readings';
import type { Reading, ReadingSubject } from '@airledger/engine/readings/types';
import { candidateReadings, type Job } from '@airledger/job';

/** A reading worth taking next: what it is, what it costs, what it is expected to tell. */
export type NextReading = RankedReading & {
  readonly subject: ReadingSubject;
  readonly minutes: number;
  readonly setUp?: { readonly name: string; readonly minutes: number };
};

/** The readings that tell most per minute, best first. @param goal `repair`, `leakage`, or the id of a room */
export const nextReadings = (
  job: Job,
  account: Account,
  readings: readonly Reading[],
  calibration: Calibration,
  goal: string,
): readonly NextReading[] => {
  const system = account.survey.systems.find(({ id }) => id === calibration.system)!;
  const candidates = candidateReadings(job, account, system).map(({ candidate }) => candidate);
  const ranked = nextReading(account.survey, readings, calibration, candidates, {
    goal: goalOf(account, goal),
  });
  return ranked
    .filter(isWorthReading)
    .slice(0, 5)
    .map((one) => {
      const { subject, minutes, setUp } = candidates.find(({ id }) => id === one.reading)!;
      return { ...one, subject, minutes, ...(setUp && { setUp }) };
    });
};

const goalOf = ({ rooms }: Account, goal: string): ReadingGoal => {
  if (goal === 'leakage') return { kind: 'leakage' };
  if (goal !== 'repair') return { kind: 'room', room: goal };
  return {
    kind: 'first repair',
    needed_m3s: Object.fromEntries(rooms.map(({ room, needed_m3s }) => [room, needed_m3s])),
  };
};
