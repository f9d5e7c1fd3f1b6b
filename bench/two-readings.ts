import { seededRandom } from '@airledger/engine';
import { forwardModel, startPressures } from '@airledger/engine/calibrate/forward-model';
import { evaluateTargets } from '@airledger/engine/calibrate/targets';
import { normalRandom } from '@airledger/engine/numerics/normal-random';
import { caseModel } from '../tests/fixtures/case-house.ts';
import { readingIds, takeReadings } from '../tests/fixtures/case-readings.ts';
import { randomCase } from '../tests/fixtures/random-case-house.ts';
import { figuresOfCase, groupOf, trueValues } from './coverage-case.ts';
import { keptRun } from './kept-run.ts';
import { type Line, plain } from './line.ts';

const quickHouses = 3;
/** Houses drawn for each house; some 400 of them carry the weight (median). */
const draws = 20_000;

/** Whether the group of the largest leak is among the two most probable, and how probable these are. */
type Answer = { readonly right: boolean; readonly expected: number };

/**
 * What total and outdoor leakage can say at all about the group that holds the largest leak, where it is a defect: Bayes'
 * rule by plain Monte Carlo over the very priors that the houses are drawn from, without an estimator. Each leak works at
 * the pressure it has in the usual house.
 *
 * @param argument as of `coverage`
 */
export function twoReadings(argument = String(quickHouses)): Line[] {
  const { houses, done, keep } = keptRun<{ answers: Answer[] }>(argument);
  for (const house of houses)
    if (!done.has(String(house))) keep(String(house), { answers: answersOf(house) });
  const answers = [...done.values()].flatMap((one) => one.answers);
  const mean = (of: (answer: Answer) => number) =>
    answers.reduce((sum, answer) => sum + of(answer), 0) / answers.length;
  return [
    plain(
      `two readings, largest leak's group among the two most probable (${answers.length})`,
      mean(({ right }) => Number(right)),
      '',
    ),
    plain(
      'two readings, how probable these two are',
      mean(({ expected }) => expected),
      '',
    ),
  ];
}

function answersOf(seed: number): Answer[] {
  const house = randomCase(seed);
  const { leaks, figures } = figuresOfCase(house);
  const { parameters, parameter, groups } = house.network;
  const truth = trueValues(house, figures);
  const worst = leaks.toSorted((a, b) => truth.get(`out:${b}`)! - truth.get(`out:${a}`)!)[0]!;
  if (!house.defects.includes(parameter.get(`C:${worst}`)!)) return [];
  const share = (logit: number) => 1 / (1 + Math.exp(-logit));
  const places = leaks.map((leak) => ({
    group: groupOf(leak),
    leak: parameters[parameter.get(`C:${leak}`)!]!,
    share: parameters[parameter.get(`f:${leak}`)!]!,
  }));
  const usual = Float64Array.from(parameters, ({ mean }) => mean);
  const forward = forwardModel(caseModel(house.network, []));
  const inUse = evaluateTargets(
    forward,
    leaks.map((leak) => figures.find(({ id }) => id === `out:${leak}`)!.target),
    usual,
    startPressures(forward),
  );
  const atWork = places.map((place, i) => Math.exp(inUse[i]! - place.leak.mean) / share(place.share.mean));
  const readings = takeReadings(house, readingIds(house, 'two'), normalRandom(seededRandom(seed * 31 + 7)));
  const uniform = seededRandom(seed + 999);
  const normal = normalRandom(uniform);
  const chances = new Map<string, number>();
  let whole = 0;
  for (let draw = 0; draw < draws; draw++) {
    const common = groups.map(normal);
    const value = ({ mean, sd, group }: (typeof parameters)[number]) =>
      mean + sd * normal() + (group ? group.sd * common[group.index]! : 0);
    let [total, outdoors, largest] = [0, 0, 0];
    let found: string | undefined;
    places.forEach((place, i) => {
      const defect = place.leak.defect!;
      const isDefect = uniform() < defect.probability;
      const leak_cfm = Math.exp(isDefect ? defect.mean + defect.sd * normal() : value(place.leak));
      const out_cfm = leak_cfm * share(value(place.share));
      total += leak_cfm;
      outdoors += out_cfm;
      if (out_cfm * atWork[i]! <= largest) return;
      largest = out_cfm * atWork[i]!;
      found = isDefect ? place.group : undefined;
    });
    if (!found) continue;
    const off = [total, outdoors].map((value, i) => (value - readings[i]![1]) / readings[i]![2]);
    const weight = Math.exp(-(off[0]! ** 2 + off[1]! ** 2) / 2);
    chances.set(found, (chances.get(found) ?? 0) + weight);
    whole += weight;
  }
  const [first, second] = [...chances].toSorted((a, b) => b[1] - a[1]);
  return [
    {
      right: [first![0], second?.[0]].includes(groupOf(worst)),
      expected: (first![1] + (second?.[1] ?? 0)) / whole,
    },
  ];
}
