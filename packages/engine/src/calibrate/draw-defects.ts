import { seededRandom } from '../numerics/seeded-random.ts';
import { fitReadings } from './fit.ts';
import type { ForwardModel } from './forward-model.ts';
import { pick } from './posterior-sample.ts';
import { logOdds } from './prior.ts';
import {
  type Centre,
  defaultSearch,
  fewConditions,
  type Hypothesis,
  type Searched,
  type SearchOptions,
  searchDefects,
  startWith,
  type WeightedHypothesis,
  weighed,
} from './search-defects.ts';

/** Sets of places drawn around what the search found: more where a fit costs the solves of few conditions. */
const drawsOf = (conditions: number): number => (conditions <= fewConditions ? 240 : 120);
/** Least chance that a place is drawn in defect, as a part of its prior, and that one in defect is left out; our choice. */
const leastOfPrior = 0.25;
const leastDoubt = 0.1;
/** A set whose first look promises less than this share of the whole is left out. */
const leastPromise = 1e-4;
const fitIterations = 4;
const settled = 0.01;

/**
 * Looks for the defects that explain the readings best, then draws sets of places around them and weighs both together:
 * a search only knows the heaviest few of what few readings allow, which together can be a tenth of the whole.
 * Yields the share of the work done; the caller may stop asking.
 */
export function* inferDefects(
  forward: ForwardModel,
  options: SearchOptions = defaultSearch,
): Generator<number, WeightedHypothesis[]> {
  const search = searchDefects(forward, options);
  let step = search.next();
  while (!step.done) {
    yield 0.7 * step.value;
    step = search.next();
  }
  const drawing = drawDefects(forward, step.value, options.depth);
  let drawn = drawing.next();
  while (!drawn.done) {
    yield 0.7 + 0.3 * drawn.value;
    drawn = drawing.next();
  }
  return drawn.value;
}

/**
 * Importance sampling of sets of defects (Robert & Casella, Monte Carlo Statistical Methods, 2004, ch. 3, from memory): a set is drawn
 * place by place with the chances that a centre gives them, and stands for weight/q others, q the chance that it is
 * drawn about any centre. Sets that the search holds count as they are, so that only the rest is sampled. No set
 * may stand for more than 1/√draws of all (Ionides, Truncated importance sampling, 2008, from memory), unless it weighs
 * more by itself.
 */
export function* drawDefects(
  forward: ForwardModel,
  { hypotheses, centres }: Searched,
  depth: number,
): Generator<number, WeightedHypothesis[]> {
  const draws = drawsOf(forward.model.conditions.length);
  const proposals = proposalsOf(forward, centres);
  const held = new Set(hypotheses.map(({ defects }) => defects.join()));
  const sets = drawnSets(proposals, draws, depth).filter(({ defects }) => !held.has(defects.join()));
  const top = hypotheses[0]!.logWeight;
  const found = hypotheses.reduce((sum, { logWeight }) => sum + Math.exp(logWeight - top), 0);
  const drawn: { hypothesis: Hypothesis; mass: number }[] = [];
  for (const { defects, count, centre } of sets) {
    const start = startWith(forward, centre.hypothesis, defects);
    const odds = logOdds(forward.model, defects);
    const standsFor = count / draws / chanceOf(proposals, defects);
    if (standsFor * Math.exp(start.linearEvidence + odds - top) < leastPromise * found) continue;
    const fit = fitReadings(forward, start.prior, start, { mostIterations: fitIterations, settled });
    const logWeight = fit.logEvidence + odds;
    drawn.push({ hypothesis: { defects, fit, logWeight }, mass: standsFor * Math.exp(logWeight - top) });
    yield drawn.length / sets.length;
  }
  const whole = drawn.reduce((sum, { mass }) => sum + mass, found);
  const most = whole / Math.sqrt(draws);
  return weighed([
    ...hypotheses.map((hypothesis) => ({ hypothesis, mass: Math.exp(hypothesis.logWeight - top) })),
    ...drawn.map(({ hypothesis, mass }) => ({
      hypothesis,
      mass: Math.min(mass, Math.max(most, Math.exp(hypothesis.logWeight - top))),
    })),
  ]);
}

/** A centre, the share of sets that are drawn about it, and with what chance each place is in them. */
type Proposal = {
  readonly centre: Centre;
  readonly weight: number;
  readonly chances: ReadonlyMap<number, number>;
};

function proposalsOf(forward: ForwardModel, centres: readonly Centre[]): Proposal[] {
  const whole = centres.reduce((sum, { hypothesis }) => sum + hypothesis.weight, 0);
  return centres.map((centre) => ({
    centre,
    weight: centre.hypothesis.weight / whole,
    chances: new Map(
      [...centre.chances].map(([place, chance]) => {
        const least = leastOfPrior * forward.model.parameters[place]!.defect!.probability;
        return [place, Math.min(1 - leastDoubt, Math.max(least, chance))];
      }),
    ),
  }));
}

type DrawnSet = { readonly defects: readonly number[]; readonly centre: Centre; count: number };

/** Different sets with how often each was drawn; those with more defects than `depth` are dropped. */
function drawnSets(proposals: readonly Proposal[], draws: number, depth: number): DrawnSet[] {
  const uniform = seededRandom(draws);
  const sets = new Map<string, DrawnSet>();
  for (let draw = 0; draw < draws; draw++) {
    const { centre, chances } = proposals[pick(proposals, (draw + 0.5) / draws)]!;
    const defects = [...chances].filter(([, chance]) => uniform() < chance).map(([place]) => place);
    if (defects.length > depth) continue;
    const known = sets.get(defects.join());
    if (known) known.count++;
    else sets.set(defects.join(), { defects, centre, count: 1 });
  }
  return [...sets.values()];
}

/** Chance that a set is drawn, about whichever centre. */
const chanceOf = (proposals: readonly Proposal[], defects: readonly number[]): number =>
  proposals.reduce((sum, { weight, chances }) => {
    let product = weight;
    for (const [place, chance] of chances) product *= defects.includes(place) ? chance : 1 - chance;
    return sum + product;
  }, 0);
