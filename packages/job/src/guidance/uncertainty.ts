import type { HowKnown } from '@airledger/engine';
import { ninetiethPercentile } from '@airledger/engine/numerics/normal-share';
import data from '../../data/uncertainty.json' with { type: 'json' };
import type { Unranged } from '../survey/surveyor.ts';

/** How far a value may be off at one end of 10 to 90 %, by how it is known: a factor, a share of it, or in its own unit. */
type Spread = { readonly by: 'factor' | 'share' | 'points' } & Readonly<Record<HowKnown, number>> & {
    readonly least?: number;
    readonly most?: number;
  };

type InputRow = {
  /** Pattern of the paths it is for; what no row is for is a choice or a convention and is not drawn. */
  readonly match: string;
  readonly thing: string;
  readonly spread: Spread;
  /** Values that follow from others by a rule of thumb are drawn too; elsewhere they just follow. */
  readonly derived?: boolean;
  readonly source: string;
};

/** Something that one goes and measures. */
export type Thing = {
  readonly id: string;
  /** One of it in the house, one for each side, or the way to the worst room apart from the others. */
  readonly scope: 'house' | 'side' | 'ways';
  readonly words: string;
  readonly minutes: number;
  readonly how: string;
  readonly ownWords?: string;
  readonly ownMinutes?: number;
  readonly ownHow?: string;
  readonly source: string;
};

const inputs = (data.inputs as unknown as readonly InputRow[]).map((row) => ({
  ...row,
  pattern: new RegExp(row.match),
}));
const rowsByPath = new Map<string, InputRow | undefined>();

export const things: ReadonlyMap<string, Thing> = new Map(
  (data.things as readonly Thing[]).map((thing) => [thing.id, thing]),
);

/** Row of the table for a path; undefined where nothing is uncertain, or nothing is to be measured. */
export const inputAt = (path: string): InputRow | undefined => {
  if (!rowsByPath.has(path)) {
    if (rowsByPath.size > 5_000) rowsByPath.clear();
    rowsByPath.set(
      path,
      inputs.find(({ pattern }) => pattern.test(path)),
    );
  }
  return rowsByPath.get(path);
};

const within = (
  { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY }: Spread,
  value: number,
) => Math.min(Math.max(value, least), most);

/** Value at a standard normal distance `z` from the one that is stated. */
export const spreadValue = ({ spread }: InputRow, { value, howKnown }: Unranged, z: number): number => {
  const size = spread[howKnown];
  if (spread.by === 'factor') return within(spread, value * size ** (z / ninetiethPercentile));
  const away = (z / ninetiethPercentile) * size * (spread.by === 'share' ? value : 1);
  // A share never turns a value round.
  return within(spread, spread.by === 'share' ? Math.max(value + away, 0.05 * value) : value + away);
};

/** Value of a typed range at a standard normal distance: its own spread on either side, a tenth beyond each end. */
export const rangeValue = (
  { value, low, high }: { readonly value: number; readonly low: number; readonly high: number },
  z: number,
): number => {
  const drawn = value + (z / ninetiethPercentile) * (z > 0 ? high - value : value - low);
  return low >= 0 ? Math.max(0, drawn) : drawn;
};
