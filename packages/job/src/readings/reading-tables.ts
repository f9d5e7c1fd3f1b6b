import type { TestSetup } from '@airledger/engine/readings/types';
import instrumentRows from '../../data/instruments.json' with { type: 'json' };
import kindRows from '../../data/reading-kinds.json' with { type: 'json' };
import type { JobReading, ReadingKind } from '../schema/reading-schema.ts';

/** How well an instrument reads, as one standard deviation: √((share·value)² + least²). */
export type Instrument = {
  readonly name: string;
  readonly for: readonly ReadingKind[];
  readonly share: number;
  readonly least: string;
  /** Whether a flow is shown as if the air had standard density, or as the volume that moves. */
  readonly flow?: 'standard air' | 'as shown';
  /** How the fan usually runs for it, where that is not as usual for the kind. */
  readonly fan?: 'heating';
  readonly source: string;
};

/** What a kind of reading asks of its sheet, and how house and ducts usually stand for it. */
export type ReadingKindRow = {
  readonly kind: ReadingKind;
  /** Field that holds the value. */
  readonly value: 'flow' | 'pressure' | 'temperature' | 'power';
  /** What `of` names; absent where the whole house is meant. */
  readonly of?: 'system' | 'part' | 'terminal' | 'room' | 'space';
  /** Words that `to` may be; `space` stands for the id of any room or zone. */
  readonly to?: readonly string[];
  readonly at?: readonly NonNullable<JobReading['at']>[];
  readonly usual: Pick<TestSetup, 'fan' | 'doors' | 'registers' | 'filter' | 'side'> & {
    readonly ductPressure?: string;
    readonly housePressure?: string;
  };
  readonly instrument: string;
  /** What one reading costs, and what must be set up first, once for all that need it. */
  readonly minutes: number;
  readonly setUp?: { readonly name: string; readonly minutes: number };
  readonly source: string;
};

/** The instruments on file, each with the source of its accuracy. */
export const instruments = instrumentRows as readonly Instrument[];

/** Every kind of reading, in the order of a visit. */
export const readingKindRows = kindRows as readonly ReadingKindRow[];

const kinds = new Map(readingKindRows.map((row) => [row.kind, row]));

/** What a kind of reading asks of its sheet. */
export const kindRow = (kind: ReadingKind): ReadingKindRow => kinds.get(kind)!;

const riseName = 'temperature rise';

/** Whether a fan flow is to be worked out from a temperature rise: that is on its sheet, or named and no flow is typed. */
export const isByRise = ({ rise, flow, instrument }: JobReading): boolean =>
  Object.keys(rise ?? {}).length > 0 || (flow === undefined && instrument?.trim().toLowerCase() === riseName);

/** The instrument of a reading: the one named when it is on file, else the usual one of its kind. */
export const instrumentOf = (reading: JobReading): Instrument => {
  const { kind, instrument } = reading;
  const called = (name: string | undefined) =>
    instruments.find((row) => row.name === name?.trim().toLowerCase());
  return called(isByRise(reading) ? riseName : instrument) ?? called(kindRow(kind).instrument)!;
};
