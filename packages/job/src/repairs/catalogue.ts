import { parseQuantity, type Ranged } from '@airledger/engine';
import data from '../../data/repairs.json' with { type: 'json' };
import type { Job } from '../schema/job-schema.ts';
import { type Typed, typedText } from '../typed.ts';

/** A price or cost with its range, about 10 to 90 %, in the currency of the catalogue. */
export type Range = Ranged;

/** In this order the work is done: sealing before what hides the joints, balancing last. */
export const phases = ['rework', 'seal', 'test', 'insulate', 'balance'] as const;
export type Phase = (typeof phases)[number];

export type Access = keyof typeof data.labour.access;

/** One way of repairing, as the trade knows it; what it does to a house is in the files beside this one. */
export type Repair = {
  readonly id: string;
  readonly name: string;
  readonly phase: Exclude<Phase, 'test'>;
  readonly how: string;
  /** What prices, hours and materials count. */
  readonly unit: string;
  readonly material: Range;
  /** Hours for each where one can stand and reach. */
  readonly hours: number;
  /** Hours beside them, however many units there are. */
  readonly visitHours?: number;
  readonly materials: readonly { readonly what: string; readonly amount: number; readonly unit: string }[];
  readonly life_years: number;
  readonly cautions: readonly string[];
  readonly source: string;
};

/** The catalogue with the prices of one job. */
export type Catalogue = {
  readonly currency: string;
  /** When the prices were good. */
  readonly date: string;
  readonly source: string;
  readonly labourPerHour: Range;
  /** A test of the ducts' leakage. */
  readonly test: Range;
  readonly repairs: ReadonlyMap<string, Repair>;
};

/** Factor on hours by where the work is. */
export const accessFactor: Readonly<Record<Access, number>> = data.labour.access;

export type SealedTo = Exclude<keyof typeof data.sealed, 'source'>;
/** What a joint still leaks after sealing, as one would type it, by place. */
export const sealedFlows: Readonly<Record<SealedTo, Readonly<Record<string, string>>>> = data.sealed;

/** What to mind before and during the work, by the names that the rows use. */
export const repairCautions: ReadonlyMap<string, string> = new Map(
  data.cautions.map(({ id, words }) => [id, words]),
);

const shipped = data.rows as readonly Repair[];

/** Names of the rows, for the schema of the job file. */
export const repairNames: readonly string[] = [...shipped.map(({ id }) => id), 'test'];

/** A typed number with its range; what has none is given the shape of the shipped range. */
const rangeOf = (typed: Typed, shaped: Range): Range => {
  const parsed = parseQuantity(typedText(typed), 'number');
  if ('problem' in parsed) throw new Error(`The price "${typedText(typed)}" ${parsed.problem}.`);
  const { value, low, high } = parsed;
  const share = shaped.typical > 0 ? value / shaped.typical : 1;
  return { low: low ?? shaped.low * share, typical: value, high: high ?? shaped.high * share };
};

/** The catalogue with what the job says of prices; `job` must have passed `readJob`. */
export const catalogueOf = (job: Job): Catalogue => {
  const own = job.repairPrices;
  const priceOf = new Map(own?.repairs?.map((row) => [row.repair, row]));
  return {
    currency: data.currency,
    date: own?.date ?? data.date,
    source: own ? (own.source ?? 'as the job states') : data.labour.source,
    labourPerHour: own?.labour === undefined ? data.labour.perHour : rangeOf(own.labour, data.labour.perHour),
    test: own?.test === undefined ? data.test.price : rangeOf(own.test, data.test.price),
    repairs: new Map(
      shipped.map((row) => {
        const { material, hours } = priceOf.get(row.id) ?? {};
        return [
          row.id,
          {
            ...row,
            ...(material !== undefined && { material: rangeOf(material, row.material) }),
            ...(hours !== undefined && {
              hours: rangeOf(hours, { low: 0, typical: row.hours, high: 0 }).typical,
            }),
          },
        ] as const;
      }),
    ),
  };
};
