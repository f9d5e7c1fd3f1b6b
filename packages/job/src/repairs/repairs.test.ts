import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import data from '../../data/repairs.json' with { type: 'json' };
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Candidate } from './candidate.ts';
import { accountsOf, candidatesOf } from './candidates-of.ts';
import { catalogueOf } from './catalogue.ts';
import { betterNames } from './enlarge-runs.ts';
import { evaluator, repairedHouse } from './evaluate-set.ts';
import { lifeFactor, usualTerms } from './life-cost.ts';
import { planMisses } from './plan-misses.ts';
import { planRepairs } from './plan-repairs.ts';
import { planToState } from './plan-to-state.ts';

const demo = (name: string): Job => {
  const url = new URL(`../../../../demo/${name}.airledger.json`, import.meta.url);
  const read = readJob(readFileSync(url, 'utf8'));
  if ('errors' in read) throw new Error(`${name} does not read`);
  return read.job;
};
const quailRun = demo('1-quail-run-lane');
const tamarack = demo('2-tamarack-bend');
const candidates = candidatesOf(quailRun, 'as-found');
const found = applyState(quailRun, 'as-found');

const setOf = (all: readonly Candidate[], ...ids: string[]): string => {
  for (const id of ids) if (!all.some((one) => one.id === id)) throw new Error(`no candidate "${id}"`);
  return all.map(({ id }) => (ids.includes(id) ? '1' : '0')).join('');
};

test('every row has a source, a life, and cautions that have words', () => {
  const words = new Set(data.cautions.map(({ id }) => id));
  for (const row of data.rows) {
    expect(row.source, row.id).not.toBe('');
    expect(row.life_years, row.id).toBeGreaterThan(0);
    expect(row.material.low, row.id).toBeLessThanOrEqual(row.material.typical);
    expect(row.material.typical, row.id).toBeLessThanOrEqual(row.material.high);
    for (const caution of row.cautions) expect(words).toContain(caution);
  }
  expect(betterNames()).not.toContain(undefined);
});

test('each repair alone leaves a job that reads, and changes something', () => {
  for (const job of [quailRun, tamarack])
    for (const candidate of candidatesOf(job, 'as-found')) {
      const house = candidate.apply(applyState(job, 'as-found'));
      const read = readJob(JSON.stringify(house));
      expect('errors' in read ? read.errors : [], candidate.id).toEqual([]);
      expect(JSON.stringify(house), candidate.id).not.toBe(JSON.stringify(applyState(job, 'as-found')));
    }
});

test('exclusions are mutual, and ids are unique', () => {
  const ids = candidates.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { id, excludes } of candidates)
    for (const other of excludes)
      expect(candidates.find((one) => one.id === other)!.excludes, `${id} and ${other}`).toContain(id);
});

test('sealing takes leakage away and voids the tests before it; wrapping never thins insulation', () => {
  const at = (id: string) => {
    const house = repairedHouse(quailRun, 'as-found', candidates, setOf(candidates, id));
    return { house, survey: surveyOf(house) };
  };
  const leak = (id: string): number =>
    accountsOf(at(id).survey).heating.systems[0]!.supplyLeak25_m3s * 2118.88;
  const before = accountsOf(surveyOf(quailRun, 'as-found')).heating.systems[0]!.supplyLeak25_m3s * 2118.88;
  expect(leak('seal-mastic-main-supply')).toBeLessThan(before - 60);
  expect(leak('seal-tested-main-supply')).toBeLessThan(leak('seal-mastic-main-supply'));
  expect(at('seal-mastic-main-supply').house.leakageTests).toEqual([]);
  expect(found.leakageTests).not.toEqual([]);
  const wrapped = at('insulate-r6-main-attic').survey.systems[0]!.parts;
  surveyOf(quailRun, 'as-found').systems[0]!.parts.forEach((part, i) => {
    expect(wrapped[i]!.insulation_m2KW).toBeGreaterThanOrEqual(part.insulation_m2KW);
  });
});

test('prices of the job take the place of those of the catalogue', () => {
  const dear: Job = {
    ...quailRun,
    repairPrices: { date: '2026-01', labour: '190', repairs: [{ repair: 'filter-changed', material: '60' }] },
  };
  const cost = (job: Job, id: string) => candidatesOf(job, 'as-found').find((one) => one.id === id)!.cost;
  const boots = 'seal-boots-ceiling-main';
  const hours = candidates.find(({ id }) => id === boots)!.hours;
  expect(cost(dear, boots).typical - cost(quailRun, boots).typical).toBeCloseTo(95 * hours, 6);
  expect(cost(dear, 'filter-changed-main').typical).toBeCloseTo(60 + 0.2 * 190, 6);
  expect(catalogueOf(dear).date).toBe('2026-01');
  expect('job' in readJob(JSON.stringify(dear))).toBe(true);
});

test('a plan becomes the state behind the one it was made on, with the repair named at each change', () => {
  const repairs = ['reconnect-run-bedroom-3', 'filter-changed-main'];
  const job = planToState(quailRun, 'as-found', repairs);
  const state = job.states!.find(({ id }) => id === 'as-specified')!;
  expect([...new Set(state.changes.map(({ why }) => why))]).toEqual([
    'Reconnect Bedroom 3',
    'Change the filter',
  ]);
  const read = readJob(JSON.stringify(job));
  expect('errors' in read ? read.errors : []).toEqual([]);
  const set = setOf(candidates, ...repairs);
  const { drift } = evaluator(quailRun, 'as-found', candidates);
  const after = accountsOf(surveyOf(job, 'as-specified'));
  drift(set).heating!.forEach((value, i) => {
    const { predicted_C, setPoint_C } = after.heating.rooms[i]!;
    expect(value).toBeCloseTo(predicted_C - setPoint_C, 4);
  });
  expect(() => planToState(quailRun, 'as-found', ['paint-it'])).toThrow('There is no repair "paint-it"');
  // A house without states gets both.
  const { states: _, ...plain } = quailRun;
  expect(planToState(plain as Job, 'as-found', repairs).states!.map(({ id }) => id)).toEqual([
    'as-found',
    'as-specified',
  ]);
});

test('locks are kept, and what a plan cannot do without is asked for', () => {
  const must = ['seal-boots-ceiling-main'];
  const planning = planRepairs(quailRun, 'as-found', {
    goal: { kind: 'rooms' },
    must,
    mustNot: candidates.map(({ id }) => id).filter((id) => !must.includes(id)),
    draws: 0,
  });
  let step = planning.next();
  while (!step.done) step = planning.next();
  expect(step.value.chosen.repairs).toEqual(must);
  expect(step.value.met).toBe(false);
  // Bedroom 3 is the worst room, cold in heating; its slack run could have been worked on.
  const [worst] = step.value.misses.rooms;
  expect([worst!.room, worst!.mode, worst!.opposed]).toEqual(['bedroom-3', 'heating', false]);
  expect(worst!.drift_K).toBeCloseTo(step.value.chosen.standing.drift_K.heating![9]!, 6);
  expect(worst!.onItsRuns).toContain('Cut Bedroom 3 to length');
  expect(worst!.beyond_K).toBeCloseTo(-worst!.drift_K - 1.5, 9);
  expect(() => planRepairs(quailRun, 'as-found', { goal: { kind: 'life-cycle' } }).next()).toThrow(
    'needs a year',
  );
});

test('along the value curve each dearer set, with its leakage test, leaves less to do', () => {
  const planning = planRepairs(quailRun, 'as-found', { goal: { kind: 'rooms' }, most: 80, draws: 0 });
  let step = planning.next();
  while (!step.done) step = planning.next();
  const { curve } = step.value;
  expect(curve.length).toBeGreaterThan(3);
  curve.slice(1).forEach((point, i) => {
    expect(point.cost.typical).toBeGreaterThan(curve[i]!.cost.typical);
    expect(point.worth).toBeLessThan(curve[i]!.worth);
  });
  const { chosen, runnersUp } = step.value;
  for (const { objective } of [...curve, ...runnersUp])
    expect(objective).toBeGreaterThanOrEqual(chosen.objective);
});

test('the leakage test that sealing asks for counts against the budget', () => {
  const sealing = candidates.find(({ id }) => id === 'seal-boots-ceiling-main')!;
  const { test } = catalogueOf(quailRun);
  const chosenFor = (budget: number): readonly string[] => {
    const planning = planRepairs(quailRun, 'as-found', {
      goal: { kind: 'specification' },
      budget,
      mustNot: candidates.filter(({ repair }) => repair.phase !== 'seal').map(({ id }) => id),
      draws: 0,
      most: 40,
    });
    let step = planning.next();
    while (!step.done) step = planning.next();
    expect(step.value.chosen.cost.typical).toBeLessThanOrEqual(budget);
    return step.value.chosen.repairs;
  };
  const alone = Math.min(
    ...candidates.filter(({ repair }) => repair.phase === 'seal').map(({ cost }) => cost.typical),
  );
  expect(chosenFor(alone + 0.5 * test.typical)).toEqual([]);
  expect(chosenFor(sealing.cost.typical + test.typical + 1)).not.toEqual([]);
});

test('a room that a plan leaves cold is named with what stands in its way, and what a wider run would do', () => {
  const all = candidatesOf(tamarack, 'as-found');
  const done = ['balance-runs-main', 'filter-enlarged-main', 'insulate-r8-main-basement'];
  const { drift } = evaluator(tamarack, 'as-found', all);
  const before = { rooms: tamarack.rooms.map(({ id }) => id), drift_K: drift('0'.repeat(all.length)) };
  const { rooms } = planMisses({
    goal: { kind: 'rooms' },
    before,
    candidates: all,
    house: repairedHouse(tamarack, 'as-found', all, setOf(all, ...done)),
  });
  const laundry = rooms.find(({ room, mode }) => room === 'laundry' && mode === 'heating')!;
  expect(laundry).toMatchObject({ opposed: true, hidden: false, onItsRuns: [] });
  expect(laundry.wider!.what).toEqual(['Replace Laundry with a 6 in run']);
  expect(laundry.wider!.drift_K.heating).toBeGreaterThan(laundry.drift_K + 1);
  // Its stack stands in a finished wall.
  expect(rooms.find(({ room }) => room === 'bedroom-4')).toMatchObject({ hidden: true, onItsRuns: [] });
});

test('what lasts as long as the study is paid once; what lasts half of it, once more half way', () => {
  expect(lifeFactor(20, usualTerms)).toBeCloseTo(1, 9);
  expect(lifeFactor(10, usualTerms)).toBeCloseTo(1 + 1.03 ** -10, 9);
  expect(lifeFactor(40, usualTerms)).toBeCloseTo(1 - 0.5 * 1.03 ** -20, 9);
});
