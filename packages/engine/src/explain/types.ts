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
