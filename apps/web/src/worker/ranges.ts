import type { Account } from '@airledger/engine';

/** 10 and 90 % of figures, by figure key (`room/bedroom-2/delivered_m3s`). */
export type Ranges = Readonly<Record<string, readonly [low: number, high: number]>>;

export const figureKey = (kind: 'room' | 'system', id: string, figure: string): string =>
  `${kind}/${id}/${figure}`;

/** The figures of one account that a range is kept for. */
export const figuresOf = (account: Account): Record<string, number> => {
  const figures: Record<string, number> = {};
  const keep = (kind: 'room' | 'system', id: string, standing: object) => {
    for (const [name, value] of Object.entries(standing))
      if (typeof value === 'number') figures[figureKey(kind, id, name)] = value;
  };
  for (const room of account.rooms) keep('room', room.room, room);
  for (const system of account.systems) keep('system', system.system, system);
  return figures;
};

/** 10 and 90 % of each figure over a sample of accounts. */
export const rangesOf = (sample: readonly Record<string, number>[]): Ranges => {
  const ranges: Record<string, readonly [number, number]> = {};
  for (const key of Object.keys(sample[0] ?? {})) {
    const values = sample
      .map((figures) => figures[key])
      .filter((value): value is number => value !== undefined && Number.isFinite(value))
      .sort((a, b) => a - b);
    if (values.length >= 10) ranges[key] = [quantile(values, 0.1), quantile(values, 0.9)];
  }
  return ranges;
};

const quantile = (sorted: readonly number[], share: number): number => {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (sorted[above]! - sorted[below]!) * (at - below);
};
