import { balanceOver, evaluate, gain, type HourBalance, isIsolated, solveBalance } from './balance.ts';
import { type Coil, type Moisture, solveMoisture } from './coil-moisture.ts';
import { describeState } from './describe-state.ts';
import { type Action, actionOf } from './equipment-action.ts';
import { findCalls } from './find-calls.ts';
import type { HouseModel } from './house-model.ts';
import { answer, fullCall } from './staging.ts';
import type { HeatState, Stored } from './types.ts';

/** Iterates equipment output, run fraction, temperatures and moisture until the output stands still. */
export function settle(house: HouseModel, held: boolean): HeatState {
  const { survey, loads, columns, sensible, set_C } = house;
  const sign = house.mode === 'heating' ? 1 : -1;
  const rooms = survey.rooms.map((room) => columns.place.get(room.id)!);
  // Rooms are the first of the places.
  const hold = (value: number) => (held ? rooms.map(() => value) : []);
  const heldTemperature = hold(set_C);
  const heldHumidity = hold(loads.indoor.humidityRatio);

  // What enters each coil is sought as a fixed point: temperature in K, moisture in g/kg, so that both weigh alike.
  let entering: readonly number[] = survey.systems.flatMap(() => [set_C, 1000 * loads.indoor.humidityRatio]);
  const faster = accelerated(entering);
  let found: readonly number[] = house.groups.map(() => 0);
  for (let iterations = 1; ; iterations++) {
    const actions = survey.systems.map((_, s) =>
      actionOf(house, s, entering[2 * s]!, entering[2 * s + 1]! / 1000),
    );
    const short = (calls: readonly number[], group: number) => {
      const { share, outputs } = spread(house, actions, calls);
      const hour = balanceOver(sensible, share);
      const values = solveBalance(hour, outputs, heldTemperature);
      if (!held) return sign * (set_C - values[thermostatRow(house, group)]!);
      const { parts, others } = house.duties[group]!;
      let lacking = share * evaluate(others, 0, columns, values, outputs);
      for (const [row, part] of parts) lacking -= part * gain(hour, row, outputs, values);
      return sign * lacking;
    };
    const limits = house.groups.map((group, g) =>
      house.duties[g]!.active ? fullCallOf(group, actions) + (held ? largestOversize - 1 : 0) : 0,
    );
    found = findCalls(short, limits, found);
    const overtaxed = found.map((call, g) => call >= limits[g]!);
    // What no size of equipment could do is described with the equipment that there is.
    const calls = found.map((call, g) =>
      Math.min(call, overtaxed[g] ? fullCallOf(house.groups[g]!, actions) : call),
    );
    const { share, outputs } = spread(house, actions, calls);
    const hour = balanceOver(sensible, share);
    const temperature = solveBalance(hour, outputs, heldTemperature);
    const moistHour = balanceOver(house.moisture, share);
    const coils = actions.map((action, s) => coilOf(action, outputs[s]!));
    const moisture = solveMoisture(house, moistHour, coils, heldHumidity);

    const consequence = survey.systems.flatMap((_, s) => {
      const e = house.source[s]!;
      if (e < 0) return [set_C, 0];
      const node = house.flow.upper[e]!;
      const { humidity, setFree_kgs } = moisture;
      return [
        evaluate(house.temperatures.node, node, columns, temperature, outputs),
        1000 * evaluate(house.humidities.node, node, columns, humidity, setFree_kgs),
      ];
    });
    if (
      iterations >= mostIterations ||
      consequence.every((value, k) => Math.abs(value - entering[k]!) <= standstill)
    ) {
      return describeState(house, {
        iterations,
        share,
        outputs,
        actions,
        calls: survey.systems.map((_, s) => calls[groupOf(house, s)]!),
        short: survey.systems.map(
          (_, s) => house.duties[groupOf(house, s)]!.active && overtaxed[groupOf(house, s)]!,
        ),
        temperature,
        moisture,
        stored: storedIn(house, hour, temperature, outputs, moistHour, moisture),
        roomGain_W: rooms.map((row) => gain(hour, row, outputs, temperature)),
      });
    }
    entering = faster(consequence).map((value, k) => (k % 2 === 1 ? Math.max(0, value) : value));
  }
}

/** Heat and moisture that stay where they are set free, because nothing carries them away: a room not yet drawn in full. */
function storedIn(
  house: HouseModel,
  hour: HourBalance,
  temperature: Float64Array,
  outputs: readonly number[],
  moistHour: HourBalance,
  { humidity, setFree_kgs }: Moisture,
): Stored[] {
  return [...house.columns.place].flatMap(([place, row]) => {
    const sensible_W = isIsolated(hour, row) ? gain(hour, row, outputs, temperature) : 0;
    const moisture_kgs = isIsolated(moistHour, row) ? gain(moistHour, row, setFree_kgs, humidity) : 0;
    return sensible_W === 0 && moisture_kgs === 0 ? [] : [{ place, sensible_W, moisture_kgs }];
  });
}

const mostIterations = 80;
/** How many times its size the equipment may have to be before the question makes no sense. */
const largestOversize = 20;
/** K and g/kg; the ledger closes at any iteration, this is how near the coil's state is to its own consequence. */
const standstill = 1e-6;

/** Anderson's acceleration with one step of memory (Anderson, J. ACM 12:4, 1965), for x = g(x). */
function accelerated(start: readonly number[]): (found: readonly number[]) => readonly number[] {
  let at = start;
  let lastFound: readonly number[] | undefined;
  let lastError: readonly number[] = [];
  return (found) => {
    const error = found.map((value, k) => value - at[k]!);
    let next = found;
    if (lastFound) {
      const change = error.map((value, k) => value - lastError[k]!);
      const size = change.reduce((sum, value) => sum + value * value, 0);
      const back = size > 0 ? error.reduce((sum, value, k) => sum + value * change[k]!, 0) / size : 0;
      next = found.map((value, k) => value - Math.max(-5, Math.min(0.9, back)) * (value - lastFound![k]!));
    }
    lastFound = found;
    lastError = error;
    at = next;
    return next;
  };
}

const groupOf = (house: HouseModel, s: number) => house.groups.findIndex((group) => group.includes(s));
const thermostatRow = (house: HouseModel, group: number) =>
  house.columns.place.get(house.survey.systems[house.groups[group]![0]!]!.thermostatRoom)!;

const fullCallOf = (group: readonly number[], actions: readonly Action[]) =>
  Math.max(...group.map((s) => fullCall(actions[s]!)));

/** The common fan-on share, and what each system gives on average through it. */
function spread(
  house: HouseModel,
  actions: readonly Action[],
  calls: readonly number[],
): { share: number; outputs: number[] } {
  const answers = actions.map((action, s) => answer(action, calls[groupOf(house, s)]!));
  const share = Math.max(0, ...answers.map((one) => one.share));
  return { share, outputs: answers.map((one) => (share > 0 ? (one.output_W * one.share) / share : 0)) };
}

/** A wet coil takes moisture out in the part of the fan-on time in which it is on. */
function coilOf({ base_W, keep, add }: Action, output_W: number): Coil {
  const part = base_W === 0 ? 0 : Math.min(1, output_W / base_W);
  return { keep: 1 - part * (1 - keep), add: part * add };
}
