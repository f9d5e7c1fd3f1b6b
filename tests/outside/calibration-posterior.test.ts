import { seededRandom } from '@airledger/engine';
import { drawDefects, inferDefects } from '@airledger/engine/calibrate/draw-defects';
import { fitReadings, scaledReadings } from '@airledger/engine/calibrate/fit';
import { forwardModel, predict, startPressures } from '@airledger/engine/calibrate/forward-model';
import { posteriorSample } from '@airledger/engine/calibrate/posterior-sample';
import { logOdds, priorOf, thetaOf } from '@airledger/engine/calibrate/prior';
import { searchDefects } from '@airledger/engine/calibrate/search-defects';
import type { CalibrationModel } from '@airledger/engine/calibrate/types';
import { normalRandom } from '@airledger/engine/numerics/normal-random';
import { beforeAll, describe, expect, it } from 'vitest';
import { caseModel, caseNetwork, cfm } from '../fixtures/case-house.ts';
import { calibrationCases } from './calibration-cases.ts';

/**
 * A duct with one leak, one register and a fan, small enough for a Markov chain to converge: nodes 0 outdoors,
 * 1 house, 2 duct; unknowns ln leak, logit of its outdoor share, ln register loss.
 */
const leak = Math.log(cfm) - 0.6 * Math.log(25);
const tiny: CalibrationModel = {
  nodeCount: 3,
  edges: [
    {
      id: 'fan',
      from: 1,
      to: 2,
      exponent: 0.5,
      lnCoefficient: Math.log(30 * cfm),
      terms: [],
      source: { pressure_Pa: 60, parameter: 3 },
    },
    {
      id: 'register',
      from: 2,
      to: 1,
      exponent: 0.5,
      lnCoefficient: Math.log(50 * cfm),
      terms: [{ parameter: 2, weight: -0.5 }],
    },
    ...(['outdoors', 'inside'] as const).map((goes, i) => ({
      id: goes,
      from: 2,
      to: i,
      exponent: 0.6,
      lnCoefficient: leak,
      terms: [{ parameter: 0, weight: 1 }],
      share: { parameter: 1, goes },
    })),
    { id: 'walls', from: 1, to: 0, exponent: 0.65, lnCoefficient: Math.log(60 * cfm), terms: [] },
  ],
  parameters: [
    {
      id: 'leak',
      kind: 'boot',
      mean: Math.log(8),
      sd: 0.8,
      defect: { probability: 0.1, mean: Math.log(60), sd: 0.6 },
    },
    { id: 'share', kind: 'share', mean: 0.5, sd: 0.9 },
    { id: 'register', kind: 'register', mean: Math.log(3), sd: 0.3 },
    { id: 'speed', kind: 'house', mean: 0, sd: 0.08 },
  ],
  groupCount: 0,
  conditions: [
    { held: [{ node: 0, pressure_Pa: 0 }], closed: [], eased: [] },
    {
      held: [
        { node: 0, pressure_Pa: 0 },
        { node: 1, pressure_Pa: 0 },
        { node: 2, pressure_Pa: 25 },
      ],
      closed: [0, 1],
      eased: [],
    },
  ],
  observations: [
    {
      id: 'total',
      condition: 1,
      measure: { kind: 'flow', edges: [2, 3].map((edge) => ({ edge, sign: 1 })) },
      value: 28 * cfm,
      sd: 9 * cfm,
    },
    {
      id: 'flow',
      condition: 0,
      measure: { kind: 'flow', edges: [{ edge: 1, sign: 1 }] },
      value: 125 * cfm,
      sd: 12 * cfm,
    },
    { id: 'static', condition: 0, measure: { kind: 'pressure', node: 2, to: 1 }, value: 16, sd: 3 },
  ],
};

/** Random-walk Metropolis on θ with the mixture itself as prior: it knows nothing of modes, weights or slopes. */
function chain(model: CalibrationModel, steps: number, seed: number): Float64Array[] {
  const forward = forwardModel(model);
  const prior = priorOf(model);
  const readings = scaledReadings(forward);
  const pressures = startPressures(forward);
  const predicted = new Float64Array(readings.length);
  const density = (theta: Float64Array) => {
    predict(forward, prior, theta, pressures, predicted);
    let ln = 0;
    for (let i = 0; i < readings.length; i++) ln -= (readings[i]! - predicted[i]!) ** 2 / 2;
    model.parameters.forEach(({ mean, sd, defect }, k) => {
      const normal = (m: number, s: number) => Math.exp(-(((theta[k]! - m) / s) ** 2) / 2) / s;
      ln += Math.log(
        defect
          ? (1 - defect.probability) * normal(mean, sd) + defect.probability * normal(defect.mean, defect.sd)
          : normal(mean, sd),
      );
    });
    return ln;
  };
  const uniform = seededRandom(seed);
  const normal = normalRandom(uniform);
  let theta = Float64Array.from(model.parameters, ({ mean }) => mean);
  let ln = density(theta);
  const kept: Float64Array[] = [];
  for (let step = 0; step < steps; step++) {
    // Long steps of the leak now and then carry the chain from the ordinary state to the defective one.
    const long = step % 3 === 0 ? 2.5 : 0.7;
    const next = theta.map((value, k) => value + long * 0.7 * model.parameters[k]!.sd * normal());
    const there = density(next);
    if (Math.log(uniform()) < there - ln) [theta, ln] = [next, there];
    if (step > 2000 && step % 5 === 0) kept.push(theta);
  }
  return kept;
}

const toEnd = <T>(steps: Generator<unknown, T>): T => {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
};

const quantile = (values: readonly number[], p: number) =>
  values.toSorted((a, b) => a - b)[Math.floor(p * values.length)]!;
const points = [0.05, 0.5, 0.95];

describe('posterior of a house of four unknowns against a long chain', () => {
  let samples: Float64Array[];
  beforeAll(() => {
    samples = chain(tiny, 260_000, 3);
  }, 60_000);
  const of = (list: readonly Float64Array[], k: number) => list.map((theta) => theta[k]!);
  const spread = (k: number) => (quantile(of(samples, k), 0.95) - quantile(of(samples, k), 0.05)) / 3.29;

  it('the chain has converged: its halves agree', () => {
    const half = samples.length / 2;
    tiny.parameters.forEach((_, k) => {
      for (const p of points) {
        const [a, b] = [samples.slice(0, half), samples.slice(half)].map((part) => quantile(of(part, k), p));
        expect(Math.abs(a! - b!) / spread(k)).toBeLessThan(0.12);
      }
    });
  });

  it('draws and weights of defects agree with it', () => {
    const forward = forwardModel(tiny);
    const hypotheses = toEnd(inferDefects(forward, { depth: 1, expansions: 4, patience: 12 }));
    const draws = toEnd(posteriorSample(forward, hypotheses, 800, 5));
    const { mean, sd, defect } = tiny.parameters[0]!;
    const density = (x: number, m: number, s: number) => Math.exp(-(((x - m) / s) ** 2) / 2) / s;
    const inDefect = of(samples, 0).map((x) => {
      const bad = defect!.probability * density(x, defect!.mean, defect!.sd);
      return bad / (bad + (1 - defect!.probability) * density(x, mean, sd));
    });
    const probability = inDefect.reduce((sum, one) => sum + one, 0) / inDefect.length;
    const weight = hypotheses.reduce((sum, one) => sum + (one.defects.includes(0) ? one.weight : 0), 0);
    expect(Math.abs(weight - probability)).toBeLessThan(0.06);
    tiny.parameters.forEach(({ id }, k) => {
      for (const p of points) {
        const drawn = quantile(
          draws.map(({ theta }) => theta[k]!),
          p,
        );
        expect(Math.abs(drawn - quantile(of(samples, k), p)) / spread(k), `${id} ${p}`).toBeLessThan(0.3);
      }
    });
  });
});

describe('chances of defects against every set of up to three places', () => {
  const depth = 3;
  const setsOf = (places: readonly number[], count: number): number[][] =>
    count === 0
      ? [[]]
      : setsOf(places, count - 1).flatMap((set) => [
          ...(set.length === count - 1
            ? places.filter((place) => set.every((one) => one < place)).map((place) => [...set, place])
            : []),
          set,
        ]);

  for (const index of [0, 1])
    it(`two readings of house ${index + 1}: drawn sets make up what the search does not meet`, () => {
      const given = calibrationCases[index]!;
      const model = caseModel(
        caseNetwork(given),
        given.readings
          .filter(([id]) => id === 'total25' || id === 'out25')
          .map(([id, , value, sd]) => [id, value, sd] as const),
      );
      const forward = forwardModel(model);
      const places = model.parameters.flatMap(({ defect }, k) => (defect ? [k] : []));
      const start = { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) };
      const every = setsOf(places, depth).map((defects) => {
        const fit = fitReadings(forward, priorOf(model, defects), start, {
          mostIterations: 12,
          settled: 0.01,
        });
        return { defects, weight: Math.exp(fit.logEvidence + logOdds(model, defects)) };
      });
      const chances = (sets: readonly { defects: readonly number[]; weight: number }[]) => {
        const whole = sets.reduce((sum, { weight }) => sum + weight, 0);
        return places.map((place) =>
          sets.reduce((sum, { defects, weight }) => sum + (defects.includes(place) ? weight / whole : 0), 0),
        );
      };
      const total = (all: readonly number[]) => all.reduce((sum, chance) => sum + chance, 0);
      const exact = chances(every);
      const found = chances(toEnd(inferDefects(forward, { depth, expansions: 8 })));
      const searched = chances(toEnd(searchDefects(forward, { depth, expansions: 8 })).hypotheses);
      expect(Math.abs(total(found) / total(exact) - 1)).toBeLessThan(0.1);
      found.forEach((chance, i) => {
        expect(Math.abs(chance - exact[i]!), model.parameters[places[i]!]!.id).toBeLessThan(0.05);
      });
      expect(total(searched) / total(exact)).toBeLessThan(0.75);
    });

  it('a heavy set that the search did not hold counts as much as it weighs by itself', () => {
    const given = calibrationCases[0]!;
    const forward = forwardModel(
      caseModel(
        caseNetwork(given),
        given.readings.map(([id, , value, sd]) => [id, value, sd] as const),
      ),
    );
    const searched = toEnd(searchDefects(forward, { depth, expansions: 8 }));
    const [heaviest, ...others] = searched.hypotheses;
    expect(heaviest!.weight).toBeGreaterThan(0.4);
    const drawn = toEnd(drawDefects(forward, { ...searched, hypotheses: others }, depth));
    const weightOf = ({ defects }: { defects: readonly number[] }) =>
      drawn.find((one) => one.defects.join() === defects.join())!.weight;
    const odds = weightOf(heaviest!) / weightOf(others[0]!);
    expect(odds / (heaviest!.weight / others[0]!.weight)).toBeCloseTo(1, 1);
  });
});

describe('the minimum against a general minimiser', () => {
  const given = calibrationCases[0]!;
  const model = caseModel(
    caseNetwork(given),
    given.readings.map(([id, , value, sd]) => [id, value, sd] as const),
  );
  const forward = forwardModel(model);
  const prior = priorOf(model);
  const readings = scaledReadings(forward);
  const start = { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) };
  const theta = new Float64Array(model.parameters.length);
  const predicted = new Float64Array(readings.length);
  const objective = (z: Float64Array) => {
    thetaOf(prior, z, theta);
    predict(forward, prior, theta, start.pressures, predicted);
    return (
      (z.reduce((sum, value) => sum + value ** 2, 0) +
        readings.reduce((sum, value, i) => sum + (value - predicted[i]!) ** 2, 0)) /
      2
    );
  };

  it('quasi-Newton with differences, which knows neither slopes nor squares, ends at the same place', () => {
    const found = minimise(objective, forward.unknowns);
    const fit = fitReadings(forward, prior, start, { mostIterations: 60, settled: 1e-6 });
    expect(fit.objective).toBeLessThan(objective(found) + 1e-6);
    expect(objective(found) - fit.objective).toBeLessThan(1e-4);
    for (let k = 0; k < found.length; k++) expect(Math.abs(found[k]! - fit.z[k]!)).toBeLessThan(0.02);
  });
});

/** Limited-memory BFGS with central differences and halving steps (Nocedal 1980). */
function minimise(f: (z: Float64Array) => number, n: number): Float64Array {
  const h = 1e-3;
  const gradient = (z: Float64Array) =>
    z.map((_, k) => {
      const moved = (by: number) => f(z.map((value, j) => (j === k ? value + by : value)));
      return (moved(h) - moved(-h)) / (2 * h);
    });
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, k) => sum + value * b[k]!, 0);
  let z: Float64Array = new Float64Array(n);
  let g: Float64Array = gradient(z);
  const pairs: { s: Float64Array; y: Float64Array }[] = [];
  for (let iteration = 0; iteration < 80 && Math.sqrt(dot(g, g)) > 1e-3; iteration++) {
    let direction: Float64Array = g.slice();
    const weights = pairs.toReversed().map(({ s, y }) => {
      const a = dot(s, direction) / dot(s, y);
      direction = direction.map((value, k) => value - a * y[k]!);
      return a;
    });
    const last = pairs.at(-1);
    if (last) {
      const scale = dot(last.s, last.y) / dot(last.y, last.y);
      direction = direction.map((value) => value * scale);
    } else direction = direction.map((value) => value / Math.max(1, Math.sqrt(dot(g, g))));
    pairs.forEach(({ s, y }, i) => {
      const b = dot(y, direction) / dot(s, y);
      direction = direction.map((value, k) => value + (weights[pairs.length - 1 - i]! - b) * s[k]!);
    });
    const before = f(z);
    let share = 1;
    while (share > 1e-6 && f(z.map((value, k) => value - share * direction[k]!)) > before) share /= 2;
    const next = z.map((value, k) => value - share * direction[k]!);
    const slope = gradient(next);
    const pair = { s: next.map((value, k) => value - z[k]!), y: slope.map((value, k) => value - g[k]!) };
    if (dot(pair.s, pair.y) > 1e-12) pairs.push(pair);
    if (pairs.length > 10) pairs.shift();
    [z, g] = [next, slope];
  }
  return z;
}
