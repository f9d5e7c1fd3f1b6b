/** Part of a room's shortage of air that one cause answers for. */
export type ShortageCause = {
  readonly id: string;
  readonly what: string;
  /** Air that the room would have gained from curing it, averaged over every order of cures, m³/s; may be negative. */
  readonly air_m3s: number;
};

/** A shortage of air in one room, split over its causes without rest. */
export type Explanation = {
  readonly room: string;
  /** Needed minus delivered, m³/s; negative when the room gets more than it needs. */
  readonly shortage_m3s: number;
  readonly causes: readonly ShortageCause[];
  /** What remains when everything is cured: size and length of ducts, fan, the share that the layout gives. */
  readonly layout_m3s: number;
};

/** Part of the difference between two rooms that one cause answers for, as a share of the air that a room needs. */
export type ImbalanceCause = { readonly id: string; readonly what: string; readonly share: number };

export type Imbalance = {
  readonly rooms: readonly [string, string];
  /** Delivered over needed of the first room minus that of the second. */
  readonly difference: number;
  readonly causes: readonly ImbalanceCause[];
  /** What remains when everything is cured. */
  readonly layout: number;
};

/** A cause of a shortage with 5 and 95 % points over the houses that the readings allow, m³/s. */
export type RangedCause = ShortageCause & { readonly low_m3s: number; readonly high_m3s: number };

export type RangedExplanation = Omit<Explanation, 'causes'> & {
  readonly causes: readonly RangedCause[];
  readonly shortageRange_m3s: { readonly low: number; readonly high: number };
  readonly layoutRange_m3s: { readonly low: number; readonly high: number };
};
