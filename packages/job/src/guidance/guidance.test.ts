import { readFileSync } from 'node:fs';
import { seededRandom } from '@airledger/engine';
import { ninetiethPercentile } from '@airledger/engine/numerics/normal-share';
import { expect, test } from 'vitest';
import data from '../../data/uncertainty.json' with { type: 'json' };
import { setMany } from '../edit/index.ts';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Sample } from '../survey/surveyor.ts';
import { normalFrom } from './draw.ts';
import { guidance } from './guidance.ts';
import { explainedShare, rankCorrelation } from './rank-correlation.ts';
import { inputAt, rangeValue, spreadValue, things } from './uncertainty.ts';

const house: Job = applyState(
  JSON.parse(
    readFileSync(new URL('../../../../demo/1-quail-run-lane.airledger.json', import.meta.url), 'utf8'),
  ),
  'as-found',
);
const filterDrop = 'systems/main/parts/return-hall/terminal/filter/drop';
const few = { seed: 3, houses: 30 };
const asFound = guidance(house, 'as-found', 'cooling', few);

test('ranks and shares of a known sum', () => {
  expect(rankCorrelation([1, 2, 3, 4], [10, 20, 30, 1000])).toBeCloseTo(1, 12);
  expect(rankCorrelation([1, 2, 3, 4], [4, 3, 2, 1])).toBeCloseTo(-1, 12);
  // Spearman by hand: ranks (1, 2.5, 2.5, 4) and (1, 3, 2, 4) give 4.5/√(4.5·5).
  expect(rankCorrelation([1, 2, 2, 3], [1, 3, 2, 4])).toBeCloseTo(4.5 / Math.sqrt(22.5), 12);
  const uniform = seededRandom(7);
  const draw = (): number[] => Array.from({ length: 2000 }, () => normalFrom(uniform));
  const [a, b, c] = [draw(), draw(), draw()];
  const sum = a.map((value, i) => 2 * value + b[i]!);
  // Variances 4 and 1 of 5; the rank correlation ρ of normal variables is 6/π·asin(r/2), squared a little below r².
  expect(explainedShare(a, sum)).toBeCloseTo(((6 / Math.PI) * Math.asin(Math.sqrt(0.8) / 2)) ** 2, 1);
  expect(explainedShare(b, sum)).toBeCloseTo(((6 / Math.PI) * Math.asin(Math.sqrt(0.2) / 2)) ** 2, 1);
  expect(explainedShare(c, sum)).toBeLessThan(0.01);
});

test('the table is whole: every input has its thing, and what is better known is off by less', () => {
  for (const { match, thing, spread } of data.inputs) {
    expect(things.has(thing), match).toBe(true);
    const sizes = [spread.measured, spread['read off'], spread.estimated, spread.assumed];
    expect([...sizes].sort((a, b) => a - b)).toEqual(sizes);
    expect(sizes[0]!).toBeGreaterThan(spread.by === 'factor' ? 1 : 0);
  }
});

test('a spread reaches its ends at 10 and 90 %', () => {
  const known = {
    value: 10,
    dimension: 'airflow',
    howKnown: 'assumed',
    defaulted: true,
    derived: false,
  } as const;
  const leak = inputAt('systems/main/parts/run/leaks/0/flow')!;
  expect(spreadValue(leak, known, ninetiethPercentile)).toBeCloseTo(20, 9);
  expect(spreadValue(leak, known, -ninetiethPercentile)).toBeCloseTo(5, 9);
  const damper = inputAt('systems/main/parts/run/damper')!;
  expect(spreadValue(damper, { ...known, value: 0.9 }, 3)).toBe(1);
  expect(rangeValue({ value: 38, low: 20, high: 60 }, ninetiethPercentile)).toBeCloseTo(60, 9);
  expect(rangeValue({ value: 38, low: 20, high: 60 }, -ninetiethPercentile)).toBeCloseTo(20, 9);
  expect(inputAt('site/heatingDesign')).toBeUndefined();
});

test('a sampler that is asked for everything and changes nothing gives the same survey', () => {
  const asked: string[] = [];
  const sample: Sample = Object.assign((_: string, { value }: { value: number }) => value, {
    unranged: (path: string, { value }: { value: number }) => {
      asked.push(path);
      return value;
    },
  });
  expect(surveyOf(house, undefined, sample)).toEqual(surveyOf(house));
  expect(asked).toContain('systems/main/parts/run-bedroom-3/length');
  expect(asked).not.toContain(filterDrop);
});

test('the same question has the same answer, most telling first, in words with a time', async () => {
  const items = (await asFound)!;
  const again = () => guidance(house, 'as-found', 'cooling', { seed: 5, houses: 6 });
  expect(await again()).toEqual(await again());
  expect(items.map(({ share }) => share)).toEqual(items.map(({ share }) => share).sort((a, b) => b - a));
  for (const item of items) {
    expect(item.minutes).toBeGreaterThan(0);
    expect(item.how).toMatch(/\.$/);
    expect(item.words).not.toMatch(/[{}]/);
    expect(item.room).toBe('bedroom-3');
    expect(item.words).not.toMatch(/bedroom-3/);
  }
  expect(items.filter(({ words }) => /bedroom 3/i.test(words))).not.toEqual([]);
  // Its range of 0.22 to 0.45 in.wc is the widest thing between the fan and the rooms.
  expect(items.slice(0, 3).map(({ words }) => words)).toContain('Pressure across the filter');
});

test('what has been measured is no longer asked for first', async () => {
  const share = async (items: typeof asFound): Promise<number> =>
    (await items)!.find(({ id }) => id === 'filter')?.share ?? 0;
  const known = setMany(house, [filterDrop], { value: '0.34 in.wc', known: 'measured' });
  expect(await share(guidance(known, 'as-found', 'cooling', few))).toBeLessThan(0.5 * (await share(asFound)));
});

test('it tells how far it is, and stops when nobody waits for it', async () => {
  const told: number[] = [];
  await guidance(house, 'as-found', 'cooling', { houses: 3, progress: (done) => told.push(done) });
  expect(told).toEqual([1, 2, 3]);
  expect(
    await guidance(house, 'as-found', 'cooling', { stillWanted: () => Promise.resolve(false) }),
  ).toBeUndefined();
});
