import type { Account, LedgerLine } from '@airledger/engine';

/** One ledger line as one place sees it: what comes in counts positive, what goes out negative. */
export type Entry = {
  readonly line: LedgerLine;
  readonly direction: 'in' | 'out';
  /** The place on the other side. */
  readonly other: string;
  /** Air while it acts, and averaged over the hour, m³/s. */
  readonly air_m3s: number;
  readonly mean_m3s: number;
  readonly sensible_W: number;
  readonly latent_W: number;
};

export type PlaceLedger = {
  readonly place: string;
  /** What comes in, then what goes out, each in the order of the ledger. */
  readonly entries: readonly Entry[];
  /** What the entries add up to: zero but for rounding in the last binary digits. */
  readonly sum: { readonly mean_m3s: number; readonly sensible_W: number; readonly latent_W: number };
};

/** The account of one place, read from the ledger of its house. */
export const placeLedger = ({ ledger, air }: Account, place: string): PlaceLedger => {
  const entry = (line: LedgerLine, direction: Entry['direction']): Entry => {
    const sign = direction === 'in' ? 1 : -1;
    const air_m3s = (sign * line.air_kgs) / air.referenceDensity_kgm3;
    return {
      line,
      direction,
      other: direction === 'in' ? line.from : line.to,
      air_m3s,
      mean_m3s: line.share * air_m3s,
      sensible_W: sign * line.sensible_W,
      latent_W: sign * line.latent_W,
    };
  };
  const entries = [
    ...ledger.lines.filter((line) => line.to === place).map((line) => entry(line, 'in')),
    ...ledger.lines.filter((line) => line.from === place).map((line) => entry(line, 'out')),
  ];
  const total = (key: 'mean_m3s' | 'sensible_W' | 'latent_W') =>
    entries.reduce((sum, one) => sum + one[key], 0);
  return {
    place,
    entries,
    sum: { mean_m3s: total('mean_m3s'), sensible_W: total('sensible_W'), latent_W: total('latent_W') },
  };
};
