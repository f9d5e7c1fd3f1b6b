import { evaluateMeasures, type ForwardModel, type Pressures } from './forward-model.ts';
import { isLeak } from './search-defects.ts';
import type { Measure } from './types.ts';

/** A repair of one place: its unknown brought to a value, or lowered by one. */
export type PlaceRepair = { readonly parameter: number; readonly id: string };

/** What a house loses: air that rooms go short of, and leakage to outdoors. */
export type HouseLoss = {
  /** Flow of each register and what its room needs of it, m³/s. */
  readonly registers: readonly { readonly edge: number; readonly needed_m3s: number }[];
  readonly outdoorLeaks: readonly number[];
};

/** A sealed leak keeps this share of its flow (about the best that crews leave behind; assumed). */
const sealedShare = 0.15;
/** Flex pulled straight keeps this factor on its friction; assumed. */
const pulledFactor = 1.5;
/** Leakage weighs this much against air that a room goes short of; assumed. */
const leakageWeight = 0.7;

/** Every place that can be repaired: leaks sealed, dampers and registers opened, flex pulled. */
export const placeRepairs = ({ model }: ForwardModel): PlaceRepair[] =>
  model.parameters.flatMap(({ id, defect }, parameter) => (defect ? [{ parameter, id }] : []));

/** Air that each repair would win back at θ, m³/s: fewer shortages and less leakage. */
export function repairGains(
  forward: ForwardModel,
  repairs: readonly PlaceRepair[],
  loss: HouseLoss,
  theta: Float64Array,
  pressures: Pressures,
): number[] {
  const measures: Measure[] = [...loss.registers.map(({ edge }) => edge), ...loss.outdoorLeaks].map(
    (edge) => ({
      kind: 'flow',
      edges: [{ edge, sign: 1 }],
    }),
  );
  const start = pressures.map((pressure) => pressure.slice());
  const lossAt = (at: Float64Array) => {
    const flows = evaluateMeasures(forward, 0, measures, at, start);
    let sum = 0;
    flows.forEach((flow, i) => {
      const register = loss.registers[i];
      sum += register ? Math.max(0, register.needed_m3s - flow) : leakageWeight * Math.abs(flow);
    });
    return sum;
  };
  const before = lossAt(theta);
  const repaired = theta.slice();
  return repairs.map(({ parameter }) => {
    const unknown = forward.model.parameters[parameter]!;
    const now = theta[parameter]!;
    repaired[parameter] = isLeak(unknown)
      ? now + Math.log(sealedShare)
      : Math.min(now, unknown.kind === 'slack' ? Math.log(pulledFactor) : unknown.mean);
    const gain = before - lossAt(repaired);
    repaired[parameter] = now;
    return gain;
  });
}
