import { type MeasureSet, type Season, type Survey, seededRandom } from '@airledger/engine';
import { normalFrom } from '../guidance/draw.ts';
import type { Job } from '../schema/job-schema.ts';
import type { Candidate } from './candidate.ts';
import type { Range } from './catalogue.ts';
import { drawnSample } from './drawn-sample.ts';
import { type Evaluator, evaluator } from './evaluate-set.ts';

/** How a plan fares when what is not known exactly is drawn. */
export type Steadiness = {
  readonly draws: number;
  /** Share of draws in which the plan is the best of those compared: itself, its runners-up and doing nothing. */
  readonly best: number;
  /** By compared set, in the order given, the share in which it is the best. */
  readonly bestBySet: readonly number[];
  /** Of the plan against doing nothing, 10, 50 and 90 % of the draws. */
  readonly saving: Range | undefined;
  readonly emission_kg: Range | undefined;
  /** Worst drift of any room, K. */
  readonly worstDrift_K: Range;
};

type Question = {
  readonly job: Job;
  readonly stateId: string;
  readonly candidates: readonly Candidate[];
  /** Doing nothing, the plan, its runners-up. */
  readonly sets: readonly MeasureSet[];
  readonly year: ((survey: Survey) => Season) | undefined;
  readonly draws: number;
  readonly seed: number;
  /** What the goal makes of a set; `factor` is on all money of a year. */
  readonly objective: (at: Evaluator, set: MeasureSet, factor: number) => number;
};

/** Spread of a year against the typical one, and of fuel prices over the years: one standard deviation, as a factor (from memory). */
const spread = { weather: 0.1, price: 0.15 };

/**
 * The plan and what came close to it on houses drawn out of the ranges of the survey, each with weather and prices of
 * its own. Yields after each evaluation.
 */
export function* steadiness(question: Question): Generator<void, Steadiness> {
  const { job, stateId, candidates, sets, year, draws, seed, objective } = question;
  const wins = sets.map(() => 0);
  const savings: number[] = [];
  const emissions: number[] = [];
  const drifts: number[] = [];
  for (let draw = 0; draw < draws; draw++) {
    const random = seededRandom(seed * 7919 + draw);
    const factor = Math.exp(spread.weather * normalFrom(random) + spread.price * normalFrom(random));
    const at = evaluator(job, stateId, candidates, { year, sample: drawnSample(seed * 1009 + draw) });
    const objectives: number[] = [];
    for (const set of sets) {
      objectives.push(objective(at, set, factor));
      yield;
    }
    wins[objectives.indexOf(Math.min(...objectives))]!++;
    const [nothing, plan] = sets.slice(0, 2).map((set) => at.standing(set));
    yield;
    if (nothing?.year && plan?.year) {
      savings.push(factor * (nothing.year.cost - plan.year.cost));
      emissions.push(nothing.year.emission_kg - plan.year.emission_kg);
    }
    drifts.push(Math.max(...Object.values(plan!.drift_K).flatMap((all) => all.map(Math.abs))));
  }
  return {
    draws,
    best: wins[1]! / draws,
    bestBySet: wins.map((count) => count / draws),
    saving: savings.length > 0 ? rangeOf(savings) : undefined,
    emission_kg: emissions.length > 0 ? rangeOf(emissions) : undefined,
    worstDrift_K: rangeOf(drifts),
  };
}

const rangeOf = (values: readonly number[]): Range => {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const below = Math.floor(place);
    const above = Math.min(sorted.length - 1, below + 1);
    return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
  };
  return { low: at(0.1), typical: at(0.5), high: at(0.9) };
};
