import { readFileSync } from 'node:fs';
import { account, toSi } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import { EditRefused, setMany } from '../edit/index.ts';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { valueAt } from '../states/job-path.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { applyChoice, openEndFlow25_m3s } from './apply-choice.ts';
import { asFoundChoices, choicesAt } from './as-found-choices.ts';

const demo = (name: string): Job =>
  applyState(
    JSON.parse(readFileSync(new URL(`../../../../demo/${name}.airledger.json`, import.meta.url), 'utf8')),
    'as-found',
  );
const houses = [demo('1-quail-run-lane'), demo('2-tamarack-bend')];
const [house] = houses as [Job, Job];
const errors = (job: Job): readonly string[] => {
  const read = readJob(job);
  return 'errors' in read ? read.errors.map((error) => error.message) : [];
};
const placesOf = (job: Job): readonly string[] =>
  job.systems!.flatMap((system) => [
    `systems/${system.id}/airHandler`,
    ...system.parts.map((part) => `systems/${system.id}/parts/${part.id}`),
  ]);
const run = 'systems/main/parts/run-bedroom-2';
const delivered = (job: Job, room: string): number =>
  account(surveyOf(job), 'cooling').rooms.find((each) => each.room === room)!.delivered_m3s;

test('every choice keeps every job it fits sound, and fits somewhere', () => {
  const used = new Set<string>();
  for (const job of houses)
    for (const path of placesOf(job))
      for (const { id } of choicesAt(job, path)) {
        // One part of each kind is enough: the fields are the same.
        const kind = `${id}/${JSON.stringify([(valueAt(job, path) as { role?: string; side?: string }).role, (valueAt(job, path) as { side?: string }).side])}`;
        if (used.has(kind)) continue;
        used.add(kind).add(id);
        expect(errors(applyChoice(job, path, id)), `${id} on ${path}`).toEqual([]);
      }
  expect(asFoundChoices.map(({ id }) => id).filter((id) => !used.has(id))).toEqual([]);
}, 30_000);

test('what was seen is estimated, with a range and its words', () => {
  const job = applyChoice(house, run, 'flex-slack');
  const fact = surveyOf(job).facts[`${run}/slack`]!;
  expect(fact).toMatchObject({ howKnown: 'estimated', defaulted: false });
  expect([fact.low, fact.value, fact.high]).toEqual([0.08, 0.15, 0.25]);
  expect(valueAt(job, `${run}/slack/note`)).toBe('Flex hangs in waves');
});

describe('a duct come off', () => {
  test('leaks as an orifice of its own size', () => {
    // Hand-worked: 0.607 · π/4 · (0.1778 m)² · √(2 · 25 Pa / 1.2 kg/m³) = 0.0973 m³/s.
    const flow = openEndFlow25_m3s({ shape: 'round', diameter_m: toSi('size', 7, 'in') }, 1);
    expect(flow).toBeCloseTo(0.0973, 4);
  });

  test('starves its room, and more so than an open joint', () => {
    const before = delivered(house, 'bedroom-2');
    const open = delivered(applyChoice(house, run, 'open-joint'), 'bedroom-2');
    const off = delivered(applyChoice(house, run, 'disconnected-at-takeoff'), 'bedroom-2');
    expect(open).toBeLessThan(before);
    expect(off).toBeLessThan(open);
  });
});

test('closing a damper, crushing and sealing go the way they should', () => {
  const before = delivered(house, 'bedroom-2');
  expect(delivered(applyChoice(house, run, 'damper-closed'), 'bedroom-2')).toBeLessThan(0.3 * before);
  expect(delivered(applyChoice(house, run, 'flex-crushed'), 'bedroom-2')).toBeLessThan(before);
  expect(delivered(applyChoice(house, run, 'sealed-with-mastic'), 'bedroom-2')).toBeGreaterThan(before);
});

test('choosing again replaces, and the other leaks stay', () => {
  const leaky = applyChoice(house, run, 'tape-peeling');
  const sealed = applyChoice(applyChoice(leaky, run, 'sealed-with-mastic'), run, 'flex-crushed');
  const leaks = valueAt(sealed, `${run}/leaks`) as { place: string; flow: unknown }[];
  expect(leaks.map(({ place }) => place)).toEqual(['takeoff', 'boot', 'joint']);
  expect(leaks[1]!.flow).toBe('6 cfm');
  const twice = applyChoice(sealed, run, 'flex-crushed');
  expect(valueAt(twice, `${run}/fittings`)).toEqual(valueAt(sealed, `${run}/fittings`));
});

test('a filter that nobody mentioned, at the air handler', () => {
  const bare = setMany(
    setMany(house, ['systems/main/parts/return-hall/terminal/filter'], undefined),
    ['systems/main/airHandler/filter'],
    undefined,
  );
  const job = applyChoice(bare, 'systems/main/airHandler', 'filter-clogged');
  expect(errors(job)).toEqual([]);
  expect(account(surveyOf(job), 'cooling').systems[0]!.fanFlow_m3s).toBeLessThan(
    account(surveyOf(bare), 'cooling').systems[0]!.fanFlow_m3s,
  );
});

test('a choice that does not fit is refused', () => {
  expect(() => applyChoice(house, 'systems/main/parts/trunk-west', 'flex-slack')).toThrow(EditRefused);
  expect(() => applyChoice(house, 'rooms/living', 'damper-closed')).toThrow(EditRefused);
  expect(() => applyChoice(house, run, 'haunted')).toThrow(/no choice/);
});
