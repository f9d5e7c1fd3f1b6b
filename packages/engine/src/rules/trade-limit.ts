import trade from '../../data/rules/trade.json' with { type: 'json' };
import { type Dimension, toSi } from '../units/dimension.ts';

/** A limit that trade practice sets, as data. */
export type TradeLimit = {
  readonly id: string;
  readonly title: string;
  /** SI. */
  readonly least?: number;
  readonly most?: number;
  readonly recommended?: number;
  readonly source: string;
};

type TradeLimitFile = Omit<TradeLimit, 'least'> & { least?: number; dimension: Dimension; unit: string };

function load({ id, title, source, least, most, recommended, dimension, unit }: TradeLimitFile): TradeLimit {
  // Units in the data file are words to the compiler; a test reads every row.
  const si = (value: number | undefined) =>
    value === undefined ? undefined : toSi(dimension, value, unit as never);
  return { id, title, source, least: si(least), most: si(most), recommended: si(recommended) };
}

const limits: ReadonlyMap<string, TradeLimit> = new Map(
  (trade.limits as readonly TradeLimitFile[]).map((row) => [row.id, load(row)]),
);

/** The limit of trade practice with that id, in SI. Throws on an id that is not in the data. */
export function tradeLimit(id: string): TradeLimit {
  const limit = limits.get(id);
  if (!limit) throw new RangeError(`no trade limit called ${id}`);
  return limit;
}

/** Sayings of the trade that tie two measures together, each with its source. */
export const tradeEquivalences: readonly {
  readonly id: string;
  readonly text: string;
  readonly source: string;
}[] = trade.equivalences;
