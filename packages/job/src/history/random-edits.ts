import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';

/** A small house with two states, for tests. */
export const tinyJob = (): Job => {
  const text = readFileSync(
    new URL('../../../../tests/fixtures/tiny.airledger.json', import.meta.url),
    'utf8',
  );
  const read = readJob(text);
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return read.job;
};

type Edit = (job: Job) => Job;
const names = ['den', 'nook', 'loft'];
const quantities = ['8 ft', '9 ft', { value: '2.6 m', known: 'measured' as const }];

const editOf = (kind: number, which: number, what: number): Edit => {
  const name = names[which % names.length]!;
  const value = quantities[what % quantities.length]!;
  const room = (job: Job) => which % job.rooms.length;
  const edits: readonly Edit[] = [
    (job) => ({ ...job, name: `House ${what}` }),
    (job) => ({
      ...job,
      indoor: { ...job.indoor, [which % 2 === 0 ? 'heating' : 'cooling']: `${68 + what} °F` },
    }),
    ({ indoor: _, ...job }) => job,
    (job) => ({
      ...job,
      rooms: job.rooms.map((each, i) => (i === room(job) ? { ...each, height: value } : each)),
    }),
    (job) => ({
      ...job,
      rooms: job.rooms.map((each, i) =>
        i === room(job) ? { ...each, surfaces: each.surfaces?.toSpliced(what % 4, 1) } : each,
      ),
    }),
    (job) =>
      job.rooms.some((each) => each.id === name)
        ? job
        : { ...job, rooms: job.rooms.toSpliced(what, 0, { id: name, floorArea: `${100 + what} ft²` }) },
    (job) => ({ ...job, rooms: job.rooms.length > 1 ? job.rooms.toSpliced(room(job), 1) : job.rooms }),
    (job) => ({ ...job, rooms: [...job.rooms].reverse() }),
    (job) =>
      job.transfers?.some((each) => each.id === name)
        ? job
        : {
            ...job,
            transfers: [
              ...(job.transfers ?? []),
              { id: name, kind: 'transfer grille' as const, between: ['living', 'bedroom'] },
            ],
          },
    ({ transfers: _, ...job }) => job,
    (job) => ({
      ...job,
      states: job.states?.map((state, i) =>
        i === which % 2
          ? {
              ...state,
              changes: [
                ...state.changes.filter(
                  (change) => !('set' in change && change.set === `rooms/${name}/height`),
                ),
                { set: `rooms/${name}/height`, to: value },
              ],
            }
          : state,
      ),
    }),
    (job) => ({
      ...job,
      states: job.states?.map((state, i) =>
        i === 1 ? { ...state, changes: state.changes.slice(1) } : state,
      ),
    }),
  ];
  return edits[kind % edits.length]!;
};

/** Some edits in a row: of fields, records, orders and states. */
export const someEdits = (most = 6): fc.Arbitrary<Edit> =>
  fc
    .array(fc.tuple(fc.nat(11), fc.nat(5), fc.nat(3)), { maxLength: most })
    .map((all) => (job) => all.reduce((before, edit) => editOf(...edit)(before), job));
