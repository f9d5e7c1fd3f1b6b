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

export type SearchOptions = {
  /** Most defects at once. */
  readonly depth: number;
  /** Whether chosen defects are exchanged for places that are easily taken for them. */
  readonly swaps: boolean;
};

/** Iterations of a first look, and of those worth finishing. */
const lookIterations = 4;
const finishIterations = 12;
const finished = 6;
/** A hypothesis lighter than the best by more, in nats, can never count. */
const leastLogWeight = 9;
/** Share of the whole below which a hypothesis is left out. */
const leastWeight = 8e-4;
/** Nats that the best of one more defect may lose before the search stops. */
const mostLoss = 1;

/**
 * Looks for the defects that explain the readings best: one more at a time, each place in turn, then each chosen one
 * exchanged for its neighbours, because a greedy search alone is falsely certain. Everything met is weighed together.
 * Yields the share of the work done; the caller may stop asking.
 */
export function* searchDefects(
  forward: ForwardModel,
  options: SearchOptions,
): Generator<number, WeightedHypothesis[]> {
  const { parameters } = forward.model;
  const places = parameters.flatMap(({ defect }, k) => (defect ? [k] : []));
  const bag = new Map<string, Hypothesis>();
  const none = fitReadings(
    forward,
    priorOf(forward.model),
    { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) },
    { mostIterations: 30 },
  );
  let base: Hypothesis = { defects: [], fit: none, logWeight: none.logEvidence };
  let best = base;
  const keep = (hypothesis: Hypothesis) => {
    const key = hypothesis.defects.join();
    const known = bag.get(key);
    if (known && known.logWeight >= hypothesis.logWeight) return;
    if (hypothesis.logWeight > best.logWeight) best = hypothesis;
    if (hypothesis.logWeight > best.logWeight - leastLogWeight) bag.set(key, hypothesis);
  };
  const look = (from: Hypothesis, defects: readonly number[], iterations: number): Hypothesis => {
    const hypothesis = tryDefects(forward, from, defects, iterations);
    keep(hypothesis);
    return hypothesis;
  };
  keep(base);

  const tried = new Set<string>();
  for (let depth = 1; depth <= options.depth; depth++) {
    const level: Hypothesis[] = [];
    for (const place of places) {
      if (base.defects.includes(place)) continue;
      const defects = [...base.defects, place].sort((a, b) => a - b);
      if (tried.has(defects.join())) continue;
      tried.add(defects.join());
      level.push(look(base, defects, lookIterations));
      if (level.length % 8 === 0)
        yield (depth - 1 + level.length / places.length) / (options.depth + +options.swaps);
    }
    const worth = level.toSorted((a, b) => b.logWeight - a.logWeight).slice(0, finished);
    const done = worth.map((one) => finish(forward, one));
    for (const one of done) keep(one);
    const top = done.toSorted((a, b) => b.logWeight - a.logWeight)[0];
    if (!top || top.logWeight < base.logWeight - mostLoss) break;
    base = top;
  }

  if (options.swaps) {
    for (let round = 0; round < 2; round++) {
      const from = best;
      for (const chosen of from.defects) {
        const others = places.filter((k) => k !== chosen && mistaken(parameters, chosen, k));
        for (const other of others) {
          if (from.defects.includes(other)) continue;
          const defects = [...from.defects.filter((k) => k !== chosen), other].sort((a, b) => a - b);
          if (tried.has(defects.join())) continue;
          tried.add(defects.join());
          look(from, defects, 8);
        }
        yield (options.depth + (round + 0.5) / 2) / (options.depth + 1);
      }
      if (best === from) break;
    }
  }
  return weighed([...bag.values()]);
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

/** The fit with other places in defect, started from a fit at hand. */
function tryDefects(
  forward: ForwardModel,
  from: Hypothesis,
  defects: readonly number[],
  iterations: number,
): Hypothesis {
  const { model } = forward;
  const prior = priorOf(model, defects);
  const z = from.fit.z.slice();
  for (const k of [...from.defects, ...defects])
    if (from.defects.includes(k) !== defects.includes(k)) z[k] = 0;
  const fit = fitReadings(
    forward,
    prior,
    { z, pressures: from.fit.pressures },
    { mostIterations: iterations },
  );
  return { defects, fit, logWeight: fit.logEvidence + logOdds(model, defects) };
}

function finish(forward: ForwardModel, hypothesis: Hypothesis): Hypothesis {
  if (hypothesis.fit.converged) return hypothesis;
  const { fit, defects } = hypothesis;
  const done = fitReadings(forward, fit.prior, fit, { mostIterations: finishIterations });
  return { defects, fit: done, logWeight: done.logEvidence + logOdds(forward.model, defects) };
}

function weighed(hypotheses: readonly Hypothesis[]): WeightedHypothesis[] {
  const sorted = hypotheses.toSorted((a, b) => b.logWeight - a.logWeight);
  const top = sorted[0]!.logWeight;
  const total = sorted.reduce((sum, { logWeight }) => sum + Math.exp(logWeight - top), 0);
  const kept = sorted.filter(({ logWeight }) => Math.exp(logWeight - top) >= leastWeight * total);
  const whole = kept.reduce((sum, { logWeight }) => sum + Math.exp(logWeight - top), 0);
  return kept.map((one) => ({ ...one, weight: Math.exp(one.logWeight - top) / whole }));
}
