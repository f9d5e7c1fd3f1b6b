import { type Balance, evaluate, gain, isIsolated, moistureBalance, solveBalance } from './balance.ts';
import { type Carried, carry, type Transfer } from './carry.ts';
import { describeState } from './describe-state.ts';
import { type Action, actionOf } from './equipment-action.ts';
import { findCalls } from './find-calls.ts';
import { type HouseModel, plainTransfer, recovering } from './house-model.ts';
import { answer, fullCall } from './staging.ts';
import type { HeatState, Stored } from './types.ts';

/** Iterates equipment output, run fraction, temperatures and moisture until the output stands still. */
export function settle(house: HouseModel, held: boolean): HeatState {
  const { survey, loads, columns, sensible, set_C } = house;
  const sign = house.mode === 'heating' ? 1 : -1;
  const rooms = survey.rooms.map((room) => columns.place.get(room.id)!);
  const hold = (value: number) => (held ? new Map(rooms.map((row) => [row, value])) : undefined);
  const heldTemperature = hold(set_C);
  const heldHumidity = hold(loads.indoor.humidityRatio);
  const nothing = survey.systems.map(() => 0);

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
      const values = solveBalance(sensible, share, outputs, heldTemperature);
      if (!held) return sign * (set_C - values[thermostatRow(house, group)]!);
      const { parts, others } = house.duties[group]!;
      let lacking = share * evaluate(others, 0, columns, values, outputs);
      for (const [row, part] of parts) lacking -= part * gain(sensible, row, share, outputs, values);
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
    const temperature = solveBalance(sensible, share, outputs, heldTemperature);

    const humidityRows = carryHumidity(house, actions, outputs);
    const fallback = new Float64Array(columns.unknowns).fill(loads.indoor.humidityRatio);
    const moisture = moistureBalance(
      house.air,
      house.flow,
      columns,
      humidityRows,
      house.terms,
      loads.outdoor.humidityRatio,
      fallback,
    );
    const humidity = solveBalance(moisture, share, nothing, heldHumidity);

    const consequence = survey.systems.flatMap((_, s) => {
      const e = house.source[s]!;
      if (e < 0) return [set_C, 0];
      const node = house.flow.upper[e]!;
      const enters_C = evaluate(house.temperatures.node, node, columns, temperature, outputs);
      return [enters_C, 1000 * evaluate(humidityRows.node, node, columns, humidity, nothing)];
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
        humidity,
        humidityRows,
        stored: storedIn(house, sensible, temperature, moisture, humidity, share, outputs),
        roomGain_W: rooms.map((row) => gain(sensible, row, share, outputs, temperature)),
      });
    }
    entering = faster(consequence).map((value, k) => (k % 2 === 1 ? Math.max(0, value) : value));
  }
}

/** Heat and moisture that stay where they are set free, because nothing carries them away: a room not yet drawn in full. */
function storedIn(
  house: HouseModel,
  sensible: Balance,
  temperature: Float64Array,
  moisture: Balance,
  humidity: Float64Array,
  share: number,
  outputs: readonly number[],
): Stored[] {
  const nothing = outputs.map(() => 0);
  return [...house.columns.place].flatMap(([place, row]) => {
    const sensible_W = isIsolated(sensible, row, share)
      ? gain(sensible, row, share, outputs, temperature)
      : 0;
    const moisture_kgs = isIsolated(moisture, row, share) ? gain(moisture, row, share, nothing, humidity) : 0;
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

/** Moisture through the ducts: only wet coils change it, in the part of the fan-on time in which they are on. */
function carryHumidity(house: HouseModel, actions: readonly Action[], outputs: readonly number[]): Carried {
  const transfers = house.air.elements.map((element, e): Transfer => {
    if (element.kind === 'ventilator')
      return recovering(
        house.survey,
        element.of,
        'latent',
        house.columns,
        house.air.nodes[house.flow.upper[e]!]!.kind === 'outdoors',
      );
    const s = house.source.indexOf(e);
    if (s < 0 || !(house.flow.mass_kgs[e]! > 0) || actions[s]!.base_W === 0) return plainTransfer;
    const part = Math.min(1, outputs[s]! / actions[s]!.base_W);
    return { ...plainTransfer, keep: 1 - part * (1 - actions[s]!.keep), add: part * actions[s]!.add };
  });
  return carry(house.air, house.flow, house.columns, transfers, house.loads.outdoor.humidityRatio);
}
