import { type Fit, fitReadings } from './fit.ts';
import { type ForwardModel, startPressures } from './forward-model.ts';
import { logOdds, priorOf } from './prior.ts';
import type { Parameter } from './types.ts';

/** Some places taken as defective, the fit under that prior, and how probable it is. */
export type Hypothesis = {
  /** Unknowns in defect, ascending. */
  readonly defects: readonly number[];
  readonly fit: Fit;
  /** ln evidence + ln prior odds. */
  readonly logWeight: number;
};

/** Hypotheses with weights that add to 1, heaviest first. */
export type WeightedHypothesis = Hypothesis & { readonly weight: number };

/** A heavy hypothesis, and how probable each place in defect looks from there if the others stay. */
export type Centre = {
  readonly hypothesis: WeightedHypothesis;
  readonly chances: ReadonlyMap<number, number>;
};

export type Searched = { readonly hypotheses: WeightedHypothesis[]; readonly centres: readonly Centre[] };

export type SearchOptions = {
  /** Most defects at once. */
  readonly depth: number;
  /** Most hypotheses whose neighbours are all looked at. */
  readonly expansions: number;
  /** A neighbour that looks worse than the best by more nats after one glance is left at that. */
  readonly patience?: number;
};

export const defaultSearch: SearchOptions = { depth: 6, expansions: 8 };

/** Iterations of a look, and of one whose neighbours are to be looked at. */
const lookIterations = 3;
const finishIterations = 12;
/** z that need not settle further while searching: a weight moves by its square. */
const settled = 0.01;
/** Up to here readings share conditions; above, every register has one of its own. */
export const fewConditions = 6;
/**
 * Patience where a look costs the solves of few conditions, and of many. With few readings many places are each a few
 * per cent likely, and together outweigh the rest; where every register has a condition of its own, readings are many.
 */
const patienceOf = (conditions: number): number => (conditions <= fewConditions ? 8 : 4.6);
/** A place that never gained within so many nats is not added again, but from the best hypothesis. */
const unpromising = 3;
/** A hypothesis lighter than the best by more, in nats, can never count. */
const leastLogWeight = 9;
/** Share of the heaviest below which a hypothesis is not worth looking around. */
const leastExpanded = 0.2;
/** A hypothesis lighter than the best by no more, in nats, is followed to its end. */
const heavy = 5;
/** Most hypotheses that sets are drawn around: with fewer, what is exchanged for its like would be drawn too seldom. */
const mostCentres = 12;
/** Share of the whole below which a hypothesis is left out. */
const leastWeight = 8e-4;

/**
 * Looks for the defects that explain the readings best. Starts from none and goes on from the heaviest hypothesis not
 * yet looked around: one defect more, one fewer, or one exchanged for a place that is easily taken for it, since a
 * search that only adds is falsely certain. Everything met is weighed together.
 * Yields the share of the work done; the caller may stop asking.
 */
export function* searchDefects(
  forward: ForwardModel,
  options: SearchOptions = defaultSearch,
): Generator<number, Searched> {
  const { parameters } = forward.model;
  const places = parameters.flatMap(({ defect }, k) => (defect ? [k] : []));
  const none = fitReadings(
    forward,
    priorOf(forward.model),
    { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) },
    { mostIterations: 30 },
  );
  const patience = options.patience ?? patienceOf(forward.model.conditions.length);
  let best: Hypothesis = { defects: [], fit: none, logWeight: none.logEvidence };
  const bag = new Map<string, Hypothesis>([['', best]]);
  /** What each set tried weighed at its last look. */
  const tried = new Map<string, number>([['', none.logEvidence]]);
  const expanded = new Set<string>();
  /** Nats that adding a place has gained at its best. */
  const gains = new Map<number, number>();

  const keep = (hypothesis: Hypothesis) => {
    tried.set(hypothesis.defects.join(), hypothesis.logWeight);
    if (hypothesis.logWeight > best.logWeight) best = hypothesis;
    if (hypothesis.logWeight > best.logWeight - leastLogWeight)
      bag.set(hypothesis.defects.join(), hypothesis);
  };

  for (let round = 0; round < options.expansions; round++) {
    const next = heaviestLeft(bag, expanded);
    if (!next || next.logWeight < best.logWeight + Math.log(leastExpanded)) break;
    const fromBest = next.logWeight >= best.logWeight;
    expanded.add(next.defects.join());
    const from = finish(forward, next);
    keep(from);
    const sets = neighbours(parameters, places, from.defects, options.depth).filter(
      ({ defects, added }) =>
        !tried.has(defects.join()) &&
        (fromBest || added === undefined || (gains.get(added) ?? 0) > -unpromising),
    );
    let top = best.logWeight;
    const glances: { defects: readonly number[]; start: Fit; logWeight: number }[] = [];
    for (const { defects, added } of sets) {
      const start = startWith(forward, from, defects);
      const logWeight = start.linearEvidence + logOdds(forward.model, defects);
      tried.set(defects.join(), logWeight);
      if (added !== undefined)
        gains.set(added, Math.max(gains.get(added) ?? Number.NEGATIVE_INFINITY, logWeight - from.logWeight));
      top = Math.max(top, logWeight);
      glances.push({ defects, start, logWeight });
      if (glances.length % 8 === 0) yield round / options.expansions;
    }
    for (const { defects, start, logWeight } of glances) {
      if (logWeight < top - patience) continue;
      const fit = fitReadings(forward, start.prior, start, { mostIterations: lookIterations, settled });
      keep({ defects, fit, logWeight: fit.logEvidence + logOdds(forward.model, defects) });
      yield (round + 0.5) / options.expansions;
    }
  }
  for (const hypothesis of [...bag.values()]) {
    if (hypothesis.logWeight < best.logWeight - heavy) continue;
    keep(finish(forward, hypothesis));
    yield 1;
  }
  const hypotheses = weighed(
    [...bag.values()].map((hypothesis) => ({
      hypothesis,
      mass: Math.exp(hypothesis.logWeight - best.logWeight),
    })),
  );
  return {
    hypotheses,
    centres: hypotheses
      .slice(0, mostCentres)
      .map((hypothesis) => ({ hypothesis, chances: chancesFrom(hypothesis, places, tried, gains) })),
  };
}

/** Chance of each place from what was seen around a hypothesis; where nothing was, from what the place gained elsewhere. */
function chancesFrom(
  { defects, logWeight }: Hypothesis,
  places: readonly number[],
  tried: ReadonlyMap<string, number>,
  gains: ReadonlyMap<number, number>,
): ReadonlyMap<number, number> {
  return new Map(
    places.map((place) => {
      const isIn = defects.includes(place);
      const seen = tried.get(toggled(defects, place).join());
      if (isIn) return [place, seen === undefined ? 1 : 1 / (1 + Math.exp(seen - logWeight))];
      const gain = seen === undefined ? (gains.get(place) ?? Number.NEGATIVE_INFINITY) : seen - logWeight;
      return [place, 1 / (1 + Math.exp(-gain))];
    }),
  );
}

/** The set with a place put in, or taken out when it is in. */
const toggled = (defects: readonly number[], place: number): number[] =>
  defects.includes(place) ? defects.filter((k) => k !== place) : [...defects, place].sort((a, b) => a - b);

function heaviestLeft(
  bag: ReadonlyMap<string, Hypothesis>,
  expanded: ReadonlySet<string>,
): Hypothesis | undefined {
  let heaviest: Hypothesis | undefined;
  for (const [key, hypothesis] of bag)
    if (!expanded.has(key) && (!heaviest || hypothesis.logWeight > heaviest.logWeight)) heaviest = hypothesis;
  return heaviest;
}

/** Sets of places one step away: with one more, one fewer, one exchanged. */
function neighbours(
  parameters: readonly Parameter[],
  places: readonly number[],
  defects: readonly number[],
  depth: number,
): { defects: readonly number[]; added?: number }[] {
  const others = places.filter((place) => !defects.includes(place));
  return [
    ...(defects.length < depth ? others.map((added) => ({ defects: toggled(defects, added), added })) : []),
    ...defects.map((one) => ({ defects: toggled(defects, one) })),
    ...defects.flatMap((one) =>
      others
        .filter((other) => mistaken(parameters, one, other))
        .map((other) => ({ defects: toggled(toggled(defects, one), other) })),
    ),
  ];
}

/** Whether one place is easily taken for another: any leak for any leak, the parts of one run among each other. */
function mistaken(parameters: readonly Parameter[], a: number, b: number): boolean {
  const [one, other] = [parameters[a]!, parameters[b]!];
  return isLeak(one) && isLeak(other) ? true : one.run !== undefined && one.run === other.run;
}

export const isRestriction = ({ kind }: Parameter): boolean =>
  kind === 'damper' || kind === 'slack' || kind === 'register';
export const isLeak = (parameter: Parameter): boolean =>
  parameter.defect !== undefined && !isRestriction(parameter);

/** A fit at hand under other places in defect, unmoved but for these. */
export function startWith(forward: ForwardModel, from: Hypothesis, defects: readonly number[]): Fit {
  const z = from.fit.z.slice();
  for (const k of [...from.defects, ...defects])
    if (from.defects.includes(k) !== defects.includes(k)) z[k] = 0;
  return fitReadings(
    forward,
    priorOf(forward.model, defects),
    { z, pressures: from.fit.pressures },
    { mostIterations: 0 },
  );
}

function finish(forward: ForwardModel, hypothesis: Hypothesis): Hypothesis {
  if (hypothesis.fit.converged) return hypothesis;
  const { fit, defects } = hypothesis;
  const done = fitReadings(forward, fit.prior, fit, { mostIterations: finishIterations, settled });
  return { defects, fit: done, logWeight: done.logEvidence + logOdds(forward.model, defects) };
}

/** Hypotheses by their share of the mass; those that hardly count are left out. */
export function weighed(
  items: readonly { readonly hypothesis: Hypothesis; readonly mass: number }[],
): WeightedHypothesis[] {
  const total = items.reduce((sum, { mass }) => sum + mass, 0);
  const kept = items.filter(({ mass }) => mass >= leastWeight * total);
  const whole = kept.reduce((sum, { mass }) => sum + mass, 0);
  return kept
    .map(({ hypothesis, mass }) => ({ ...hypothesis, weight: mass / whole }))
    .toSorted((a, b) => b.weight - a.weight);
}
