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

/** Part of a room's shortage of heat that one cause answers for. */
export type HeatCause = {
  readonly id: string;
  readonly what: string;
  /** Heat that the room would have gained from curing it, averaged over every order of cures, W; may be negative. */
  readonly heat_W: number;
};

/**
 * A shortage of heat in one room on the design hour, split over its causes without rest. In cooling "heat" is what is
 * taken out, so that a shortage is above zero in both.
 */
export type HeatExplanation = {
  readonly room: string;
  /** What its registers would have to bring to hold it at the set point, W. */
  readonly needed_W: number;
  /** Needed minus brought as the house floats, W. */
  readonly shortage_W: number;
  readonly causes: readonly HeatCause[];
  /** This room's part of what all rooms together lack with everything cured: output and run time of the equipment. */
  readonly equipment_W: number;
  /** What remains: the share of the heat that the layout gives it. */
  readonly layout_W: number;
};

export type RoomExplanation = { readonly air: Explanation; readonly heat: HeatExplanation };

/** What registers serve rooms with: air, m³/s, or heat on the design hour, W (in cooling: what is taken out). */
export type Service = 'air' | 'heat';

/** Rooms that are weighed together: one room, a storey, a system. */
export type RoomGroup = { readonly name: string; readonly rooms: readonly string[] };

/** Part of the difference between two groups that one cause answers for, as a share of what a group needs. */
export type ImbalanceCause = { readonly id: string; readonly what: string; readonly share: number };

export type Imbalance = {
  readonly of: Service;
  readonly groups: readonly [better: RoomGroup, worse: RoomGroup];
  /** Delivered over needed of each. */
  readonly shares: readonly [better: number, worse: number];
  /** That of the first group minus that of the second. */
  readonly difference: number;
  readonly causes: readonly ImbalanceCause[];
  /** What remains when everything is cured. */
  readonly layout: number;
};

/** 5 and 95 % points over the houses that the readings allow. */
export type Ends = { readonly low: number; readonly high: number };

/** A cause of a shortage with 5 and 95 % points over the houses that the readings allow, m³/s. */
export type RangedCause = ShortageCause & { readonly low_m3s: number; readonly high_m3s: number };

export type RangedExplanation = Omit<Explanation, 'causes'> & {
  readonly causes: readonly RangedCause[];
  readonly shortageRange_m3s: Ends;
  readonly layoutRange_m3s: Ends;
};

export type RangedHeatCause = HeatCause & { readonly low_W: number; readonly high_W: number };

export type RangedHeatExplanation = Omit<HeatExplanation, 'causes'> & {
  readonly causes: readonly RangedHeatCause[];
  readonly shortageRange_W: Ends;
  readonly equipmentRange_W: Ends;
  readonly layoutRange_W: Ends;
};

export type RangedRoomExplanation = { readonly air: RangedExplanation; readonly heat: RangedHeatExplanation };

export type RangedImbalance = Omit<Imbalance, 'causes'> & {
  readonly causes: readonly (ImbalanceCause & Ends)[];
  readonly differenceRange: Ends;
  readonly layoutRange: Ends;
};
