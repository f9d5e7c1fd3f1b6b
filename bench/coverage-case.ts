import { seededRandom } from '@airledger/engine';
import { type Figure, modelErrors } from '@airledger/engine/calibrate/calibration-targets';
import { contradicted } from '@airledger/engine/calibrate/doubts';
import { inferDefects } from '@airledger/engine/calibrate/draw-defects';
import { type ForwardModel, forwardModel, startPressures } from '@airledger/engine/calibrate/forward-model';
import { pick } from '@airledger/engine/calibrate/posterior-sample';
import type { WeightedHypothesis } from '@airledger/engine/calibrate/search-defects';
import { type Mixtures, mixturesOfHypotheses, type Part } from '@airledger/engine/calibrate/summarise';
import { evaluateTargets, type Target } from '@airledger/engine/calibrate/targets';
import { mixtureQuantile } from '@airledger/engine/calibrate/uncertainty';
import { normalRandom } from '@airledger/engine/numerics/normal-random';
import { caseModel, cfm } from '../tests/fixtures/case-house.ts';
import {
  type CaseReading,
  modelId,
  type ReadingSet,
  readingIds,
  takeReadings,
} from '../tests/fixtures/case-readings.ts';
import { type RandomCase, randomCase } from '../tests/fixtures/random-case-house.ts';

/** Yes-or-no answers and sizes of errors, added up over houses under a name. */
export type Tally = Record<string, number[]>;

/** Groups of places that a crew seals together. */
export const groupOf = (leak: string): string =>
  /^boot/.test(leak)
    ? 'boots'
    : /^(takeoff|box)/.test(leak)
      ? 'joints'
      : leak === 'plenum' || leak === 'cabinet'
        ? leak
        : 'return';
const sideOf = (leak: string): 'supply' | 'return' => (/^(ret|cabinet)/.test(leak) ? 'return' : 'supply');

const figure = (id: string, target: Target): Figure => ({
  id,
  target,
  modelError: target.kind !== 'flow' ? 0 : target.ln ? modelErrors.operatingLeak : modelErrors.registerFlow,
});

/** What is asked of a house: flows of registers, leaks, groups, totals, restrictions of runs. */
export function figuresOfCase({ network, design_cfm }: RandomCase) {
  const { leakEdges, parameter, edges, edgeInto } = network;
  const outside = (leaks: readonly string[]): Target => ({
    kind: 'flow',
    edges: leaks.map((leak) => ({ edge: leakEdges.get(leak)![0], sign: 1 })),
    ln: true,
  });
  const leaks = [...leakEdges.keys()];
  const terms = (run: number) => {
    const drop = (kind: string, node: string) => {
      const edge = edges[edgeInto(kind, node)]!;
      return Math.exp((Math.log(design_cfm[run - 1]! * cfm) - edge.lnCoefficient) / edge.exponent);
    };
    const box = edges.find(
      (edge, e) => network.kinds[e] === 'damper' && edge.to === network.node.get(`t${run}`),
    )!;
    return [
      {
        parameter: parameter.get(`damp:${run}`)!,
        factor: Math.exp((Math.log(design_cfm[run - 1]! * cfm) - box.lnCoefficient) / box.exponent),
      },
      { parameter: parameter.get(`slack:${run}`)!, factor: drop('flex', `t${run}`) },
      { parameter: parameter.get(`reg:${run}`)!, factor: drop('register', `b${run}`) },
    ];
  };
  return {
    leaks,
    figures: [
      ...design_cfm.map((_, i) =>
        figure(`flow${i + 1}`, {
          kind: 'flow',
          edges: [{ edge: edgeInto('register', `b${i + 1}`), sign: 1 }],
          ln: false,
        }),
      ),
      ...leaks.map((leak) =>
        figure(`C:${leak}`, { kind: 'unknown', parameter: parameter.get(`C:${leak}`)! }),
      ),
      ...leaks.map((leak) => figure(`out:${leak}`, outside([leak]))),
      figure('supply', outside(leaks.filter((leak) => sideOf(leak) === 'supply'))),
      figure('return', outside(leaks.filter((leak) => sideOf(leak) === 'return'))),
      ...design_cfm.map((_, i) => figure(`run${i + 1}`, { kind: 'sum', constant: 0, terms: terms(i + 1) })),
      figure('fan', { kind: 'flow', edges: [{ edge: network.kinds.indexOf('fan'), sign: 1 }], ln: false }),
    ],
  };
}

export type CaseResult = {
  readonly house: RandomCase;
  readonly readings: readonly CaseReading[];
  readonly forward: ForwardModel;
  readonly hypotheses: readonly WeightedHypothesis[];
};

/** One house with one set of readings, fitted with the search for defects. */
export function fitCase(seed: number, set: ReadingSet): CaseResult {
  const house = randomCase(seed);
  const normal = normalRandom(seededRandom(seed * 31 + 7));
  const readings = takeReadings(house, readingIds(house, set), normal);
  const forward = forwardModel(
    caseModel(
      house.network,
      readings.map(([id, value, sd]) => [modelId(id), value, sd] as const),
    ),
  );
  const search = inferDefects(forward);
  let step = search.next();
  while (!step.done) step = search.next();
  return { house, readings, forward, hypotheses: step.value };
}

/** Compares a fitted house with its truth. */
export function scoreCase({ house, forward, hypotheses, readings }: CaseResult, tally: Tally): void {
  const { figures, leaks } = figuresOfCase(house);
  const truth = trueValues(house, figures);
  const mixtures = mixturesOfHypotheses(forward, figures, hypotheses);
  const add = (name: string, value: number | boolean) => {
    tally[name] = [...(tally[name] ?? []), Number(value)];
  };
  const inside = (id: string): boolean => {
    const parts = mixtures.get(id)!;
    const value = truth.get(id)!;
    return mixtureQuantile(parts, 0.05) <= value && value <= mixtureQuantile(parts, 0.95);
  };
  const best = (id: string) => mixtures.get(id)!.reduce((sum, { mean, weight }) => sum + weight * mean, 0);

  const flowErrors = house.design_cfm.map((_, i) => best(`flow${i + 1}`) / truth.get(`flow${i + 1}`)! - 1);
  add('register error', Math.sqrt(flowErrors.reduce((sum, e) => sum + e * e, 0) / flowErrors.length));
  house.design_cfm.forEach((_, i) => {
    add('range register', inside(`flow${i + 1}`));
  });
  const fan = truth.get('fan')!;
  for (const side of ['supply', 'return'] as const) {
    add(`error ${side}`, Math.abs(Math.exp(best(side)) - Math.exp(truth.get(side)!)) / fan);
    add(`range ${side}`, inside(side));
    add('range outdoors', inside(side));
  }

  const isDefect = (id: string) => house.defects.includes(house.network.parameter.get(id)!);
  const leakDefects = leaks.filter((leak) => isDefect(`C:${leak}`));
  for (const leak of leaks) {
    const held = inside(`C:${leak}`);
    if (isDefect(`C:${leak}`)) add('range defect leaks', held);
    else {
      add('range ordinary leaks', held);
      add(leakDefects.length > 0 ? 'range ordinary, house with defect' : 'range ordinary, clean house', held);
    }
  }

  // Statements about single places, and whether they are true.
  house.network.parameters.forEach(({ defect }, k) => {
    if (!defect) return;
    const probability = hypotheses.reduce(
      (sum, { defects, weight }) => sum + (defects.includes(k) ? weight : 0),
      0,
    );
    if (probability >= 0.9) add('said 90: true', house.defects.includes(k));
    else if (probability >= 0.6) add('said 60: true', house.defects.includes(k));
  });

  const largest = (ids: readonly string[]) => ids.toSorted((a, b) => truth.get(b)! - truth.get(a)!)[0]!;
  const worstLeak = largest(leaks.map((leak) => `out:${leak}`)).slice(4);
  if (isDefect(`C:${worstLeak}`)) {
    const chances = largestChances(
      leaks.map((leak) => `out:${leak}`),
      mixtures,
      (h, i) => hypotheses[h]!.defects.includes(house.network.parameter.get(`C:${leaks[i]!}`)!),
    );
    const ranked = byChance(new Map(leaks.map((leak, i) => [leak, chances[i]!])));
    add('leak 1st', ranked[0] === worstLeak);
    add('leak top 2', ranked.slice(0, 2).includes(worstLeak));
    const place = (leak: string) => leak.replace(/^(boot|takeoff)(\d+)$/, 'run$2');
    const byRun = [...new Set(ranked.map(place))];
    add('leak by run top 2', byRun.slice(0, 2).includes(place(worstLeak)));
    const worstGroup = groupOf(worstLeak);
    const groupChances = new Map<string, number>();
    leaks.forEach((leak, i) => {
      groupChances.set(groupOf(leak), (groupChances.get(groupOf(leak)) ?? 0) + chances[i]!);
    });
    const groupRank = byChance(groupChances);
    add('group 1st', groupRank[0] === worstGroup);
    add('group top 2', groupRank.slice(0, 2).includes(worstGroup));
  }
  const nominal = nominalDrops(figures, house);
  const excess = (id: string, value: number) => value - nominal.get(id)!;
  const runs = house.design_cfm.map((_, i) => `run${i + 1}`);
  const worstRun = runs.toSorted((a, b) => excess(b, truth.get(b)!) - excess(a, truth.get(a)!))[0]!;
  const number = worstRun.slice(3);
  if ([`damp:${number}`, `slack:${number}`, `reg:${number}`].some(isDefect)) {
    const shifted = new Map(
      runs.map((id) => [id, mixtures.get(id)!.map((part) => ({ ...part, mean: excess(id, part.mean) }))]),
    );
    const chances = largestChances(runs, shifted);
    const ranked = byChance(new Map(runs.map((run, i) => [run, chances[i]!])));
    add('run 1st', ranked[0] === worstRun);
    add('run top 2', ranked.slice(0, 2).includes(worstRun));
  }
  customary(house, readings, truth, add);
}

/** ln of each run's drop where everything is as usual. */
function nominalDrops(figures: readonly { id: string; target: Target }[], house: RandomCase) {
  const usual = house.network.parameters.map(({ mean }) => mean);
  return new Map(
    figures.flatMap(({ id, target }) =>
      target.kind === 'sum'
        ? [
            [
              id,
              Math.log(
                target.terms.reduce(
                  (sum, { parameter, factor }) => sum + factor * Math.exp(usual[parameter]!),
                  0,
                ),
              ),
            ] as const,
          ]
        : [],
    ),
  );
}

/** Samples of the mixtures that a ranking is drawn from. */
const rankingDraws = 2000;

/**
 * How often each figure is the largest, and counts in that hypothesis; what else is first or second gets a thousandth,
 * to part those that never are.
 */
function largestChances(
  ids: readonly string[],
  mixtures: Mixtures,
  counts: (hypothesis: number, figure: number) => boolean = () => true,
): Float64Array {
  const uniform = seededRandom(5);
  const normal = normalRandom(uniform);
  const parts = ids.map((id) => mixtures.get(id)!);
  const firsts = new Float64Array(ids.length);
  for (let draw = 0; draw < rankingDraws; draw++) {
    const h = pick(parts[0]!, uniform());
    const values = parts.map((all: readonly Part[]) => all[h]!.mean + all[h]!.sd * normal());
    const first = values.indexOf(Math.max(...values));
    firsts[first]! += counts(h, first) ? 1 : 1e-3;
    values[first] = Number.NEGATIVE_INFINITY;
    firsts[values.indexOf(Math.max(...values))]! += 1e-3;
  }
  return firsts;
}

const byChance = (chances: ReadonlyMap<string, number>): string[] =>
  [...chances].toSorted((a, b) => b[1] - a[1]).map(([id]) => id);

export function trueValues(
  house: RandomCase,
  figures: readonly { id: string; target: Target }[],
): Map<string, number> {
  const forward = forwardModel(caseModel(house.truth, []));
  const values = evaluateTargets(
    forward,
    figures.map(({ target }) => target),
    house.theta,
    startPressures(forward),
  );
  return new Map(figures.map(({ id }, i) => [id, values[i]!]));
}

/** The customary rule: leakage split evenly over supply and return, at half of each plenum's static. */
function customary(
  house: RandomCase,
  readings: readonly CaseReading[],
  truth: ReadonlyMap<string, number>,
  add: (name: string, value: number) => void,
): void {
  const read = new Map(readings.map(([id, value]) => [id, value]));
  const [out25, supply, returned] = [read.get('out25'), read.get('Psup'), read.get('Pret')];
  if (out25 === undefined || supply === undefined || returned === undefined) return;
  const fan = truth.get('fan')!;
  const atHalf = (static_Pa: number) => (out25 / 2) * (Math.abs(static_Pa) / 2 / 25) ** 0.6;
  add('customary error supply', Math.abs(atHalf(supply) * cfm - Math.exp(truth.get('supply')!)) / fan);
  add('customary error return', Math.abs(atHalf(returned) * cfm - Math.exp(truth.get('return')!)) / fan);
  const total = house.design_cfm.reduce((sum, flow) => sum + flow, 0);
  const delivered = fan / cfm - atHalf(supply);
  const errors = house.design_cfm.map(
    (flow, i) => ((flow / total) * delivered * cfm) / truth.get(`flow${i + 1}`)! - 1,
  );
  add('customary register error', Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length));
}

/** Ways to spoil a reading, each at least six standard deviations. */
export const slips = ['unit', 'hose', 'factor', 'typo'] as const;

/** One spoilt reading in a set: whether it is found, and whether a clean set is left alone. */
export function scoreSlip(seed: number, set: ReadingSet, tally: Tally): void {
  const house = randomCase(seed);
  const uniform = seededRandom(seed * 77 + 3);
  const readings = takeReadings(house, readingIds(house, set), normalRandom(uniform));
  const doubted = (given: readonly CaseReading[]) => {
    const model = caseModel(
      house.network,
      given.map(([id, value, sd]) => [modelId(id), value, sd] as const),
    );
    return { model, ...contradicted(model) };
  };
  const add = (name: string, value: boolean) => {
    tally[name] = [...(tally[name] ?? []), Number(value)];
  };
  const clean = doubted(readings);
  add('false alarm', clean.doubted.length > 0);
  for (const slip of slips) {
    const at = Math.floor(uniform() * readings.length);
    const tries = readings.map((_, i) => (at + i) % readings.length);
    const spoilt = tries.find((i) => {
      const [id, value, sd] = readings[i]!;
      return id !== 'cfm50' && Math.abs(spoil(id, value, slip, uniform) - value) > 6 * sd;
    });
    if (spoilt === undefined) continue;
    const [id, value, sd] = readings[spoilt]!;
    const shown = spoil(id, value, slip, seededRandom(seed));
    if (Math.abs(shown - value) < 6 * sd) continue;
    const given = readings.map((reading, i) => (i === spoilt ? ([id, shown, sd] as const) : reading));
    const { checks } = doubted(given);
    const ranked = checks.toSorted((a, b) => Math.abs(b.residual) - Math.abs(a.residual));
    const named = (count: number) =>
      ranked.slice(0, count).some(({ observation }) => observation === modelId(id));
    add('slip 1st', named(1));
    add('slip top 2', named(2));
  }
}

function spoil(id: string, value: number, slip: (typeof slips)[number], uniform: () => number): number {
  const { unit } = {
    unit: /^(total|out|sup\d|ret\d|supout|fan|flow|soft|grille|cfm)/.test(id) ? 'flow' : 'other',
  };
  const pressure = /^(P|pan|prof|boot|room|house|end|toP)/.test(id);
  switch (slip) {
    case 'unit':
      if (unit === 'flow') return value * 0.4719;
      return pressure ? value / 10 : value * 1.8 + 32;
    case 'hose':
      return pressure ? value * 0.3 * uniform() : value;
    case 'factor':
      return uniform() < 0.5 ? value * 0.5 : value * 1.6;
    case 'typo': {
      const digits = Math.abs(value).toPrecision(3).replace('.', '');
      if (digits[0] === digits[1]) return value;
      const point = Math.abs(value).toPrecision(3);
      const plain = point.split('');
      const places = plain.flatMap((character, i) => (/\d/.test(character) ? [i] : []));
      const [a, b] = [places[0]!, places[1]!];
      [plain[a], plain[b]] = [plain[b]!, plain[a]!];
      return Math.sign(value) * Number(plain.join(''));
    }
  }
}
