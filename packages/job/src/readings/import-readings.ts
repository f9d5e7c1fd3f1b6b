import { idFrom } from '../edit/unique-id.ts';
import type { JobError } from '../job-error.ts';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import { type JobReading, type ReadingKind, readingKinds } from '../schema/reading-schema.ts';
import { suggestion } from '../suggestion.ts';
import { placeOf } from './place-of.ts';
import { kindRow } from './reading-tables.ts';

/** What a column of a gauge's log is taken for; `value` goes to the field that the kind of its row has. */
export const importFields = [
  'kind',
  'of',
  'at',
  'to',
  'value',
  'instrument',
  'setup/fan',
  'setup/side',
  'setup/ductPressure',
  'setup/housePressure',
  'weather/outdoor',
  'by',
  'when',
  'note',
] as const;
export type ImportField = (typeof importFields)[number];

/** How the columns of a log are read. */
export type ImportMapping = {
  /** What each column is, by its place; `undefined` leaves it out. */
  readonly columns: readonly (ImportField | undefined)[];
  /** Put behind numbers without a unit, by field. */
  readonly units: Partial<Record<ImportField, string>>;
  /** What every row is that does not say so itself. */
  readonly everyRow: Partial<Record<ImportField, string>>;
  readonly hasHead: boolean;
};

/** What is wrong with a row; rows are counted as a spreadsheet does, from 1 with the head. */
export type ImportFault = { readonly row: number; readonly message: string };

export type ImportedReadings = {
  readonly job: Job;
  readonly added: number;
  readonly faults: readonly ImportFault[];
};

const heads: readonly (readonly [ImportField, RegExp])[] = [
  ['kind', /^(kind|test|measurement|type)$/i],
  ['of', /^(of|register|room|place|location|channel|name)$/i],
  ['at', /^(at|probe)$/i],
  ['to', /^(to|against|reference)$/i],
  ['instrument', /^(instrument|gauge|device|meter)$/i],
  ['setup/ductPressure', /duct.*pressure/i],
  ['setup/housePressure', /house.*pressure/i],
  ['weather/outdoor', /outdoor|outside/i],
  ['by', /^(by|who|operator|technician)$/i],
  ['when', /^(when|time|date|timestamp|date.?time)$/i],
  ['note', /^(note|notes|comment|remark)s?$/i],
  ['value', /value|reading|flow|pressure|temperature|power|cfm|^pa$/i],
];

/** Columns by their heads, as far as they say; units in brackets behind a head serve its numbers. */
export const guessMapping = (head: readonly string[]): ImportMapping => {
  const taken = new Set<ImportField>();
  const units: Partial<Record<ImportField, string>> = {};
  const columns = head.map((cell) => {
    const [, words = cell, unit] = /^(.*?)\s*[([]([^)\]]+)[)\]]\s*$/.exec(cell) ?? [];
    const field = heads.find(([name, pattern]) => !taken.has(name) && pattern.test(words.trim()))?.[0];
    if (field === undefined) return undefined;
    taken.add(field);
    if (unit) units[field] = unit;
    return field;
  });
  return { columns, units, everyRow: {}, hasHead: taken.size > 0 };
};

/** A number without a unit gets that of its column. */
const withUnit = (text: string, unit: string | undefined): string =>
  unit !== undefined && /^[-+−]?[\d.,\s]+$/.test(text)
    ? `${text.replace(/,(?=\d{1,2}$)/, '.')} ${unit}`
    : text;

/**
 * A job with the readings of a gauge's log added, in a state. Each row is checked as a sheet typed by hand is; a row
 * that does not read is told and left out, the others are taken. Places may be named by id, by name, or a register by
 * its room.
 * @param rows of `parseCsv`, head included where `mapping.hasHead`
 */
export const importReadings = (
  job: Job,
  state: string,
  rows: readonly (readonly string[])[],
  mapping: ImportMapping,
): ImportedReadings => {
  const before = job.readings ?? [];
  const ids = new Set(before.map(({ id }) => id));
  const faults: ImportFault[] = [];
  const made = new Map<string, { readonly row: number; readonly reading: JobReading }>();
  for (const [i, row] of rows.entries()) {
    if (mapping.hasHead && i === 0) continue;
    const read = readingOfRow(job, state, row, mapping);
    if ('problem' in read) faults.push({ row: i + 1, message: read.problem });
    else {
      const id = freeId(read.id, ids);
      made.set(`readings/${id}`, { row: i + 1, reading: { ...read.reading, id } });
    }
  }
  const candidates = [...made.values()].map(({ reading }) => reading);
  const errors = readErrors({ ...job, readings: [...before, ...candidates] });
  for (const { path, message } of errors) {
    const at = path.split('/').slice(0, 2).join('/');
    const bad = made.get(at);
    if (bad) faults.push({ row: bad.row, message });
  }
  const wrong = new Set(faults.map(({ row }) => row));
  const good = [...made.values()].filter(({ row }) => !wrong.has(row)).map(({ reading }) => reading);
  return {
    job: good.length === 0 ? job : { ...job, readings: [...before, ...good] },
    added: good.length,
    faults: faults.toSorted((a, b) => a.row - b.row),
  };
};

const readErrors = (job: Job): readonly JobError[] => {
  const read = readJob(job);
  return 'errors' in read ? read.errors : [];
};

const freeId = (base: string, ids: Set<string>): string => {
  let id = base;
  for (let next = 2; ids.has(id); next++) id = `${base}-${next}`;
  ids.add(id);
  return id;
};

const readingOfRow = (
  job: Job,
  state: string,
  row: readonly string[],
  { columns, units, everyRow }: ImportMapping,
): { readonly id: string; readonly reading: Omit<JobReading, 'id'> } | { readonly problem: string } => {
  const cells: Partial<Record<ImportField, string>> = { ...everyRow };
  for (const [i, field] of columns.entries()) {
    const text = row[i]?.trim();
    if (field !== undefined && text) cells[field] = withUnit(text, units[field]);
  }
  const kind = cells.kind?.toLowerCase();
  if (!isKind(kind))
    return {
      problem: `Found ${kind === undefined ? 'no kind of reading' : `"${cells.kind}"`}, expected one of ${readingKinds.join(', ')}. ${suggestion(kind ?? '', readingKinds, 'Name it in a column, or for all rows.')}`,
    };
  const { of, value } = kindRow(kind);
  const record: Record<string, unknown> = { kind, state };
  for (const [field, text] of Object.entries(cells)) {
    const [holder, key] = field.split('/') as [string, string?];
    if (field === 'kind') continue;
    if (field === 'of') record.of = of === undefined ? text : placeOf(job, state, of, text);
    else if (field === 'value') record[value] = text;
    else if (key === undefined) record[field] = text;
    else record[holder] = { ...(record[holder] as object | undefined), [key]: text };
  }
  return {
    id: idFrom([kind, record.of ?? ''].join(' ')),
    reading: record as unknown as Omit<JobReading, 'id'>,
  };
};

const isKind = (word: string | undefined): word is ReadingKind =>
  (readingKinds as readonly (string | undefined)[]).includes(word);
