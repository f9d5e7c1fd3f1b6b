import { type Job, type JobReading, type ReadingKind, uniqueId } from '@airledger/job';
import { type EditResult, editTyped } from '../document/document.ts';
import { whoAmI } from '../document/who.ts';
import { useWorkbench } from '../state/store.ts';
import type { SheetRow } from './sheet-rows.ts';

type Fields = Partial<JobReading>;

/** A reading with fields typed anew; `undefined` takes one away. */
const changed = (reading: JobReading, fields: Fields): JobReading =>
  Object.fromEntries(
    Object.entries({ ...reading, ...fields }).filter(([, value]) => value !== undefined),
  ) as unknown as JobReading;

const withReadings = (job: Job, readings: readonly JobReading[]): Job => {
  const { readings: _, ...rest } = job;
  return readings.length === 0 ? rest : { ...job, readings: [...readings] };
};

/** "2025-07-15 10:15", by the clock on the wall. */
const now = (): string => {
  const at = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
};

/** Takes what was typed on a line of a sheet: into its reading, or into a new one in the state in view. */
export const typeReading = (kind: ReadingKind, row: SheetRow, fields: Fields): EditResult => {
  const { reading, place } = row;
  if (reading)
    return editTyped(`${row.label}: ${kind}`, (job) =>
      withReadings(
        job,
        (job.readings ?? []).map((each) => (each.id === reading.id ? changed(each, fields) : each)),
      ),
    );
  const who = whoAmI();
  return editTyped(`${row.label}: ${kind} read`, (job) => {
    const begun = {
      id: uniqueId(job, [kind, place.of, place.at, place.to, place.setup?.side].filter(Boolean).join(' ')),
      kind,
      state: useWorkbench.getState().viewed,
      ...place,
      ...(who && { by: who }),
      when: now(),
    } as JobReading;
    return withReadings(job, [...(job.readings ?? []), changed(begun, fields)]);
  });
};

export const removeReading = ({ id, kind }: JobReading): EditResult =>
  editTyped(`${kind} removed`, (job) =>
    withReadings(
      job,
      (job.readings ?? []).filter((each) => each.id !== id),
    ),
  );
