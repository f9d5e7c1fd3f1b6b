import type { Air } from '../air/types.ts';
import { solveDense } from '../numerics/dense.ts';
import type { Carried, Columns } from './carry.ts';
import type { DirectedFlow } from './directed-flow.ts';
import type { Terms, When } from './terms.ts';

/**
 * Balances of all places as rows of coefficients over the columns, one matrix for what acts always, one for what
 * acts while the fans run, one for what acts while they stand still.
 * What a place gains over the hour is always + share·on + (1 − share)·off.
 */
export type Balance = {
  readonly columns: Columns;
  readonly always: Float64Array;
  readonly on: Float64Array;
  readonly off: Float64Array;
  /** Value that a place takes when nothing at all reaches it. */
  readonly fallback: Float64Array;
};

const part = (balance: Balance, when: When) =>
  when === 'always' ? balance.always : when === 'fan on' ? balance.on : balance.off;

const emptyBalance = (columns: Columns, fallback: Float64Array): Balance => {
  const size = columns.unknowns * columns.width;
  return {
    columns,
    always: new Float64Array(size),
    on: new Float64Array(size),
    off: new Float64Array(size),
    fallback,
  };
};

/** Air of the network that enters each place, with all it carries; `perMass` is its heat capacity (or 1 for moisture). */
function addNetwork(balance: Balance, air: Air, flow: DirectedFlow, carried: Carried, perMass: number): void {
  const { columns, on, always } = balance;
  const { width } = columns;
  const { leaving } = carried;
  const receive = (target: Float64Array, row: number, node: number, weight: number) => {
    for (const e of flow.into[node]!) {
      const rate = weight * flow.mass_kgs[e]!;
      for (let k = 0; k < width; k++) target[row * width + k]! += rate * leaving[e * width + k]!;
      target[row * width + row]! -= rate;
    }
  };
  air.nodes.forEach((place, node) => {
    if (place.kind === 'room' || place.kind === 'zone')
      receive(on, columns.place.get(place.id)!, node, perMass);
  });
  flow.ring.forEach((node, index) => {
    receive(always, columns.ringStart + index, node, 1);
  });
}

/**
 * The sensible balance of every room and zone (W), from the air network, conduction of ducts and the terms of the house.
 * @param temperatures ducts as carried, coefficients in °C.
 */
export function sensibleBalance(
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  temperatures: Carried,
  terms: Terms,
  specificHeat_JkgK: number,
  outdoors_C: number,
  fallback_C: Float64Array,
): Balance {
  const balance = emptyBalance(columns, fallback_C);
  const { width } = columns;
  addNetwork(balance, air, flow, temperatures, specificHeat_JkgK);
  air.elements.forEach((element, e) => {
    if (element.surroundings === undefined || !(flow.mass_kgs[e]! > 0)) return;
    const row = columns.place.get(element.surroundings);
    if (row === undefined) return;
    const rate = flow.mass_kgs[e]! * specificHeat_JkgK;
    for (let k = 0; k < width; k++)
      balance.on[row * width + k]! +=
        rate * (temperatures.node[flow.upper[e]! * width + k]! - temperatures.leaving[e * width + k]!);
  });
  for (const term of terms.heat) {
    const matrix = part(balance, term.when);
    const from = columns.place.get(term.from);
    const to = columns.place.get(term.to);
    const add = (row: number | undefined, sign: number) => {
      if (row === undefined) return;
      matrix[row * width + columns.constant]! += sign * term.constant_W;
      if (from !== undefined) matrix[row * width + from]! += sign * term.conductance_WK;
      if (to !== undefined) matrix[row * width + to]! -= sign * (term.conductance_WK + term.boundary_WK);
    };
    add(to, 1);
    add(from, -1);
  }
  addExchanges(balance, terms, specificHeat_JkgK, outdoors_C);
  return balance;
}

/** The moisture balance of every room and zone, kg/s of water. */
export function moistureBalance(
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  humidity: Carried,
  terms: Terms,
  outdoors: number,
  fallback: Float64Array,
): Balance {
  const balance = emptyBalance(columns, fallback);
  addNetwork(balance, air, flow, humidity, 1);
  for (const term of terms.moisture) {
    const row = columns.place.get(term.to);
    if (row !== undefined)
      part(balance, term.when)[row * columns.width + columns.constant]! += term.moisture_kgs;
  }
  addExchanges(balance, terms, 1, outdoors);
  return balance;
}

/** Air that trades places outside the network: each side receives the other's air and gives its own. */
function addExchanges(balance: Balance, terms: Terms, perMass: number, outdoors: number): void {
  const { columns } = balance;
  const { width } = columns;
  for (const term of terms.exchange) {
    const matrix = part(balance, term.when);
    const rate = term.mass_kgs * perMass;
    const receive = (receiver: number | undefined, giver: number | undefined) => {
      if (receiver === undefined) return;
      matrix[receiver * width + receiver]! -= rate;
      if (giver === undefined) matrix[receiver * width + columns.constant]! += rate * outdoors;
      else matrix[receiver * width + giver]! += rate;
    };
    const from = columns.place.get(term.from);
    const to = columns.place.get(term.to);
    receive(to, from);
    receive(from, to);
  }
}

/** Balances over an hour with a given part of it fan-on: what each place gains, as rows of coefficients over the columns. */
export type HourBalance = {
  readonly columns: Columns;
  readonly rows: Float64Array;
  readonly fallback: Float64Array;
};

/** @param share part of the hour in which the fans run (> 1 asks what a larger unit would do). */
export function balanceOver(balance: Balance, share: number): HourBalance {
  const { columns, always, on, off, fallback } = balance;
  const rest = Math.max(0, 1 - share);
  const rows = new Float64Array(always.length);
  for (let i = 0; i < rows.length; i++) rows[i] = always[i]! + share * on[i]! + rest * off[i]!;
  return { columns, rows, fallback };
}

/**
 * Solves the balances for the unknowns.
 * @param outputs output of each system while the fans run.
 * @param held values at which the first places are held instead of balanced.
 */
export function solveBalance(
  balance: HourBalance,
  outputs: readonly number[],
  held: readonly number[] = [],
): Float64Array {
  const { columns, rows, fallback } = balance;
  const { unknowns, width, constant } = columns;
  const first = held.length;
  const n = unknowns - first;
  const matrix = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let row = 0; row < n; row++) {
    const start = (first + row) * width;
    let known = rows[start + constant]!;
    for (let s = 0; s < outputs.length; s++) known += outputs[s]! * rows[start + constant + 1 + s]!;
    let isTouched = false;
    for (let k = 0; k < first; k++) {
      const value = rows[start + k]!;
      known += value * held[k]!;
      if (value !== 0) isTouched = true;
    }
    for (let k = 0; k < n; k++) {
      const value = rows[start + first + k]!;
      matrix[row * n + k] = value;
      if (value !== 0) isTouched = true;
    }
    right[row] = -known;
    if (isTouched) continue;
    matrix[row * n + row] = 1;
    right[row] = fallback[first + row]!;
  }
  const values = new Float64Array(unknowns);
  values.set(held);
  values.set(solveDense(matrix, right), first);
  return values;
}

/** Whether anything at all carries heat or moisture to or from a place; what is set free where nothing does, stays. */
export function isIsolated({ columns, rows }: HourBalance, row: number): boolean {
  const start = row * columns.width;
  for (let k = 0; k < columns.unknowns; k++) if (rows[start + k] !== 0) return false;
  return true;
}

/** What a place gains over the hour at given values of the unknowns; zero in balance. */
export const gain = (
  { columns, rows }: HourBalance,
  row: number,
  outputs: readonly number[],
  values: Float64Array,
): number => evaluate(rows, row, columns, values, outputs);

/** Value of a row of coefficients. */
export function evaluate(
  rows: Float64Array,
  index: number,
  { width, unknowns, constant }: Columns,
  values: Float64Array,
  outputs: readonly number[],
): number {
  const start = index * width;
  let sum = rows[start + constant]!;
  for (let k = 0; k < unknowns; k++) sum += rows[start + k]! * values[k]!;
  for (let s = 0; s < outputs.length; s++) sum += rows[start + constant + 1 + s]! * outputs[s]!;
  return sum;
}
