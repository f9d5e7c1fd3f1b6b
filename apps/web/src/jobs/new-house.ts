/** A way to a new house: what it is called, what it is for, and what opens it. It ends in `keepNew`. */
export type NewHouseWay = { readonly name: string; readonly about: string; readonly start: () => void };

/** Ways to a new house, in the order they are offered. */
export const newHouseWays: readonly NewHouseWay[] = [];
