import type { Account, AirSystem } from '@airledger/engine';
import type { CandidateReading } from '@airledger/engine/calibrate/next-reading';
import type { Job } from '../schema/job-schema.ts';
import type { JobReading, ReadingKind } from '../schema/reading-schema.ts';
import { accuracyOf } from './accuracy-of.ts';
import { kindRow } from './reading-tables.ts';
import { setupOf } from './setup-of.ts';
import { stateOfReading } from './sheet-doubts.ts';
import { subjectOf } from './subject-of.ts';

/** A reading that could be taken next: what its sheet would say, and what the estimator needs to weigh it. */
export type CandidateSheet = {
  readonly sheet: Pick<JobReading, 'kind' | 'of' | 'at' | 'to' | 'setup'>;
  readonly candidate: CandidateReading;
};

type Sheet = CandidateSheet['sheet'];

const keyOf = ({ kind, of, at, to, setup }: Sheet): string =>
  JSON.stringify([kind, of, at, to, setup?.side ?? 'both']);

/** Every reading that bears on where the air of one system goes. */
const sheetsOf = (account: Account, { id, parts }: AirSystem): readonly Sheet[] => {
  const ends = parts.flatMap((part) => (part.terminal ? [{ part, terminal: part.terminal }] : []));
  const supplies = ends.filter(({ part }) => part.side === 'supply');
  const leakage = { kind: 'duct leakage', of: id } as const;
  const plenum = (['supply plenum', 'after filter', 'return plenum'] as const).map(
    (at): Sheet => ({ kind: 'plenum static', of: id, at }),
  );
  const each = (kind: ReadingKind, some: typeof ends): Sheet[] =>
    some.map(({ terminal }) => ({ kind, of: terminal.id }));
  return [
    { ...leakage, to: 'total' },
    { ...leakage, to: 'outdoors' },
    { ...leakage, to: 'total', setup: { side: 'supply' } },
    { ...leakage, to: 'total', setup: { side: 'return' } },
    { kind: 'house leakage' },
    ...plenum,
    { kind: 'fan flow', of: id },
    ...each('register flow', ends),
    ...each('pressure pan', ends),
    ...each('register temperature', supplies),
    ...supplies.map(({ part }): Sheet => ({ kind: 'duct static', of: part.id, at: 'end' })),
    { kind: 'plenum temperature', of: id, at: 'return plenum' },
    ...shutRooms(account).map((room): Sheet => ({ kind: 'room pressure', of: room, to: 'outdoors' })),
  ];
};

/** Rooms with a door that can be shut. */
const shutRooms = ({ survey: { rooms, doors } }: Account): readonly string[] =>
  rooms
    .map(({ id }) => id)
    .filter((id) =>
      doors.some(
        ({ between, openArea_m2, shutArea_m2 }) => between.includes(id) && shutArea_m2 < openArea_m2,
      ),
    );

/** What a reading will show, near enough for its accuracy: flows m³/s, pressures Pa, temperatures °C. */
const expected = (account: Account, system: AirSystem, { kind, of }: Sheet): number => {
  const standing = account.systems.find((one) => one.system === system.id)!;
  switch (kind) {
    case 'duct leakage':
      return standing.supplyLeak25_m3s + standing.returnLeak25_m3s;
    case 'house leakage':
      return account.survey.house.leakage50_m3s;
    case 'fan flow':
      return standing.fanFlow_m3s;
    case 'register flow': {
      const e = account.air.elements.findIndex(({ terminal }) => terminal === of);
      return Math.abs(account.air.solution.flow_m3s[e] ?? 0);
    }
    case 'plenum static':
      return standing.externalStatic_Pa / 2;
    default:
      return 0;
  }
};

/**
 * Readings that could be taken next in a state of a job, for one system: all that bear on where its air goes and have
 * not been taken yet, each with its accuracy and what it costs.
 */
export const candidateReadings = (
  job: Job,
  account: Account,
  system: AirSystem,
): readonly CandidateSheet[] => {
  const taken = new Set(
    (job.readings ?? [])
      .filter((reading) => stateOfReading(job, reading) === account.survey.state)
      .map(keyOf),
  );
  return sheetsOf(account, system)
    .filter((sheet) => !taken.has(keyOf(sheet)))
    .map((sheet): CandidateSheet => {
      const reading: JobReading = { id: keyOf(sheet), ...sheet };
      const { minutes, setUp } = kindRow(sheet.kind);
      return {
        sheet,
        candidate: {
          id: reading.id,
          subject: subjectOf(reading),
          setup: setupOf(reading),
          accuracy: accuracyOf(reading, expected(account, system, sheet)),
          minutes,
          ...(setUp && { setUp }),
        },
      };
    });
};
