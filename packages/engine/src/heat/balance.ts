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
  const receive = (target: Float64Array, row: number, node: number, weight: number) => {
    for (const e of flow.into[node]!) {
      const rate = weight * flow.mass_kgs[e]!;
      for (let k = 0; k < width; k++) target[row * width + k]! += rate * carried.leaving[e * width + k]!;
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

const combined = (balance: Balance, index: number, share: number) =>
  balance.always[index]! + share * balance.on[index]! + Math.max(0, 1 - share) * balance.off[index]!;

/**
 * Solves the balances for the unknowns.
 * @param share part of the hour in which the fans run (> 1 asks what a larger unit would do).
 * @param outputs output of each system while the fans run.
 * @param held fixes places at a value instead of balancing them.
 */
export function solveBalance(
  balance: Balance,
  share: number,
  outputs: readonly number[],
  held?: ReadonlyMap<number, number>,
): Float64Array {
  const { columns, fallback } = balance;
  const { unknowns: n, width, constant } = columns;
  const matrix = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let row = 0; row < n; row++) {
    const hold = held?.get(row);
    let largest = 0;
    for (let k = 0; k < n; k++) {
      const value = hold === undefined ? combined(balance, row * width + k, share) : 0;
      matrix[row * n + k] = value;
      largest = Math.max(largest, Math.abs(value));
    }
    if (largest === 0) {
      matrix[row * n + row] = 1;
      right[row] = hold ?? fallback[row]!;
      continue;
    }
    let known = combined(balance, row * width + constant, share);
    outputs.forEach((output, s) => {
      known += output * combined(balance, row * width + constant + 1 + s, share);
    });
    right[row] = -known;
  }
  return solveDense(matrix, right);
}

/** Whether anything at all carries heat or moisture to or from a place; what is set free where nothing does, stays. */
export function isIsolated(balance: Balance, row: number, share: number): boolean {
  const { unknowns, width } = balance.columns;
  for (let k = 0; k < unknowns; k++) if (combined(balance, row * width + k, share) !== 0) return false;
  return true;
}

/** What a place gains over the hour at given values of the unknowns; zero in balance. */
export function gain(
  balance: Balance,
  row: number,
  share: number,
  outputs: readonly number[],
  values: Float64Array,
): number {
  const { unknowns, width, constant } = balance.columns;
  let sum = combined(balance, row * width + constant, share);
  for (let k = 0; k < unknowns; k++) sum += combined(balance, row * width + k, share) * values[k]!;
  outputs.forEach((output, s) => {
    sum += output * combined(balance, row * width + constant + 1 + s, share);
  });
  return sum;
}

/** Value of a row of coefficients. */
export function evaluate(
  rows: Float64Array,
  index: number,
  columns: Columns,
  values: Float64Array,
  outputs: readonly number[],
): number {
  const start = index * columns.width;
  let sum = rows[start + columns.constant]!;
  for (let k = 0; k < columns.unknowns; k++) sum += rows[start + k]! * values[k]!;
  outputs.forEach((output, s) => {
    sum += rows[start + columns.constant + 1 + s]! * output;
  });
  return sum;
}
