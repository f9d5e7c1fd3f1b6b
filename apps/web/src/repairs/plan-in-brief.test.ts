import type { RepairPlan } from '@airledger/job';
import { expect, test } from 'vitest';
import { planInBrief } from './plan-in-brief.ts';
import type { Asked, Repairs } from './repairs-store.ts';

const now: Asked = {
  job: { schemaVersion: 1, name: 'House', site: {}, rooms: [] },
  state: 'as-found',
  weather: undefined,
};

const standing = (cost: number) => ({ year: { cost } }) as RepairPlan['before'];
const plan = {
  before: standing(1800),
  chosen: { repairs: ['seal'], cost: { low: 400, typical: 600, high: 900 }, standing: standing(1550) },
} as unknown as RepairPlan;
const planned = (asked: Asked): Repairs => ({ status: 'done', locks: {}, plan, asked });

test('a plan of the house, state and weather in view says what it costs and saves', () => {
  expect(planInBrief(planned(now), now)).toBe('$400 to $900; saves $250 a year');
  const loaded = { ...now, weather: 'LOCATION,Elsewhere' };
  expect(planInBrief(planned(loaded), { ...loaded })).toBe('$400 to $900; saves $250 a year');
});

test.each<[string, Partial<Asked>]>([
  ['house', { job: { ...now.job } }],
  ['state', { state: 'as-specified' }],
  ['weather', { weather: 'LOCATION,Elsewhere' }],
])('a plan made before the %s changed asks to plan again', (_, other) => {
  expect(planInBrief(planned(now), { ...now, ...other })).toBe('plan again');
  expect(planInBrief(planned({ ...now, ...other }), now)).toBe('plan again');
});

test('before a plan is there, the rail says what goes on', () => {
  expect(planInBrief({ status: 'none', locks: {} }, now)).toBe('no plan yet');
  expect(planInBrief({ ...planned(now), status: 'working' }, now)).toBe('planning …');
});
