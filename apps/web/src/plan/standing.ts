/** How a room stands with its air, as a share of what it needs. */
export type Standing = {
  readonly band: Band;
  /** Delivered over needed; absent for a room that needs none. */
  readonly share?: number;
  readonly short_m3s: number;
};

/** Bands of the share of needed air, the least first; the words are what the legend says. */
export const bands = [
  { id: 'far-short', below: 0.65, words: 'under 65 %' },
  { id: 'short', below: 0.8, words: '65–80 %' },
  { id: 'bit-short', below: 0.9, words: '80–90 %' },
  { id: 'near', below: 0.95, words: '90–95 %' },
  { id: 'has', below: 1.05, words: '95–105 %' },
  { id: 'over', below: Number.POSITIVE_INFINITY, words: 'over 105 %' },
] as const;

export type Band = (typeof bands)[number]['id'] | 'no-need';

export const standing = (room: { readonly needed_m3s: number; readonly delivered_m3s: number }): Standing => {
  const short_m3s = room.needed_m3s - room.delivered_m3s;
  if (!(room.needed_m3s > 0)) return { band: 'no-need', short_m3s };
  const share = room.delivered_m3s / room.needed_m3s;
  return { band: bands.find((band) => share < band.below)?.id ?? 'over', share, short_m3s };
};

/** Bands where a room counts as short of its air. */
export const isShort = ({ share }: Standing): boolean => share !== undefined && share < 0.95;
