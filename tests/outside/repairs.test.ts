import { readFileSync } from 'node:fs';
import { account, season, yearOfSite } from '@airledger/engine';
import { leakageClassFlow25_m3s } from '@airledger/engine/ducts/leakage-law';
import { sectionGeometry } from '@airledger/engine/ducts/section-geometry';
import {
  candidatesOf,
  type Job,
  type PlanRequest,
  phases,
  planningYear,
  planRepairs,
  planToState,
  type RepairPlan,
  readJob,
  surveyOf,
} from '@airledger/job';
import { expect, test } from 'vitest';

const demo = (name: string): Job => {
  const text = readFileSync(new URL(`../../demo/${name}.airledger.json`, import.meta.url), 'utf8');
  const read = readJob(text);
  if ('errors' in read) throw new Error(`${name} does not read`);
  return read.job;
};
const quailRun = demo('1-quail-run-lane');
const tamarack = demo('2-tamarack-bend');

const planOf = (job: Job, request: PlanRequest): RepairPlan => {
  const planning = planRepairs(job, 'as-found', {
    year: planningYear(job, 'as-found'),
    draws: 0,
    ...request,
  });
  for (;;) {
    const { done, value } = planning.next();
    if (done) return value;
  }
};

/** All repairs but these are locked out. */
const only = (job: Job, wanted: readonly string[]): string[] =>
  candidatesOf(job, 'as-found')
    .map(({ id }) => id)
    .filter((id) => !wanted.includes(id));

// Common practice, no source: seal before insulating.
test('sealing comes before insulating by value on the first demo house, not only by rule', () => {
  const must = [
    'seal-mastic-main-supply',
    'seal-mastic-main-return',
    'seal-boots-ceiling-main',
    'insulate-r8-main-attic',
  ];
  const plan = planOf(quailRun, { goal: { kind: 'life-cycle' }, must, mustNot: only(quailRun, must) });
  const place = (id: string): number => plan.work.find(({ candidate }) => candidate.id === id)!.byValue;
  expect(plan.work).toHaveLength(must.length);
  expect(place('insulate-r8-main-attic')).toBe(must.length);
  // The same by what each gains for its cost in that order.
  const gains = plan.work
    .toSorted((a, b) => a.byValue - b.byValue)
    .map(({ candidate, value }) => value.inOrder / candidate.cost.typical);
  expect(gains.at(-1)).toBeLessThan(0.7 * Math.min(...gains.slice(0, -1)));
}, 300_000);

// The full year is the oracle. Repairs that differ by less than this may change places: measured over every repair of the
// demo houses alone, the widest pair that does is $3.10 a year apart (`npm run bench -- season`).
const apart = 4;

test.each([
  ['1-quail-run-lane', 'as-found'],
  ['2-tamarack-bend', 'as-found'],
  ['3-alder-ferry-road', 'as-planned'],
])(
  'the short year of plans puts repairs of %s in the order of the full year',
  (name, state) => {
    const job = demo(name);
    const year = planningYear(job, state);
    const full = yearOfSite(surveyOf(job, state));
    const tried = candidatesOf(job, state).filter((_, at) => at % 6 === 5);
    const costs = [[], ...tried.map(({ id }) => [id]), tried.map(({ id }) => id)].map((repairs) => {
      const survey = surveyOf(planToState(job, state, repairs), 'as-specified');
      return { short: year(survey).cost, full: season(survey, full).cost };
    });
    expect(costs.length).toBeGreaterThan(4);
    for (const a of costs)
      for (const b of costs) if (b.full > a.full + apart) expect(b.short).toBeGreaterThan(a.short);
  },
  120_000,
);

// Common practice, no source: in a cold climate with gas or oil the best value lies between.
test.each(['natural gas', 'fuel oil'] as const)(
  'bare ducts in a cold attic on %s are worth R-6 to R-11',
  (fuel) => {
    const [system] = quailRun.systems!;
    const cold: Job = {
      ...quailRun,
      site: { station: 'minneapolis-st-paul' },
      systems: [
        {
          ...system!,
          equipment: {
            kind: 'furnace with air conditioner',
            heating: { output: '64,000 Btu/h', fuel },
            cooling: { total: '3 tons' },
          },
          parts: system!.parts.map((part) => ({ ...part, insulation: 'R-0' })),
        },
      ],
      states: [{ id: 'as-found', changes: [] }],
    };
    const wraps = ['insulate-r6-main-attic', 'insulate-r8-main-attic', 'insulate-r11-main-attic'];
    const plan = planOf(cold, { goal: { kind: 'life-cycle' }, mustNot: only(cold, wraps) });
    expect(plan.chosen.repairs).toHaveLength(1);
    expect(wraps).toContain(plan.chosen.repairs[0]);
    expect(plan.money!.worth.typical.pays).toBe(true);
  },
  300_000,
);

// Common practice, no source: 2 % of the fan's flow asks for smaller ducts, workmanship being the same.
test('at one leakage class the ducts of the first demo house miss 2 % and smaller ones keep it', () => {
  const survey = surveyOf(quailRun, 'as-found');
  const ofClass24 = (shrunk: number): number => {
    const { fanFlow_m3s } = account(survey, 'cooling').systems[0]!;
    const leak_m3s = survey.systems[0]!.parts.reduce((sum, { section, length_m }) => {
      const surface_m2 = sectionGeometry(section).perimeter_m * length_m * shrunk;
      return sum + leakageClassFlow25_m3s(24, surface_m2);
    }, 0);
    return leak_m3s / fanFlow_m3s;
  };
  expect(ofClass24(1)).toBeGreaterThan(0.02);
  expect(ofClass24(0.75)).toBeLessThan(0.02);
});

test('the cold room over the garage gets a plan that brings it within tolerance', () => {
  const tolerance_K = 1.5;
  const plan = planOf(tamarack, {
    goal: { kind: 'rooms', rooms: ['over-garage'], tolerance_K },
    most: 120,
    draws: 2,
  });
  expect(plan.met).toBe(true);
  const job = planToState(tamarack, 'as-found', plan.chosen.repairs);
  const read = readJob(JSON.stringify(job));
  expect('errors' in read ? read.errors : []).toEqual([]);
  const before = account(surveyOf(tamarack, 'as-found'), 'heating');
  const coldBefore = before.rooms.find(({ room }) => room === 'over-garage')!;
  expect(coldBefore.setPoint_C - coldBefore.predicted_C).toBeGreaterThan(5);
  for (const mode of ['heating', 'cooling'] as const) {
    const { rooms } = account(surveyOf(job, 'as-specified'), mode);
    for (const [at, { room, predicted_C, setPoint_C, needed_m3s }] of rooms.entries()) {
      const drift = needed_m3s > 0 ? Math.abs(predicted_C - setPoint_C) : 0;
      const was = Math.abs(plan.before.drift_K[mode]![at]!);
      // The plan counts a room as put right to 0.02 K.
      const allowed = room === 'over-garage' ? tolerance_K : Math.max(tolerance_K, was);
      expect(drift, `${room}, ${mode}`).toBeLessThan(allowed + 0.03);
    }
  }
  // Cost, saving, comfort and payback, with ranges, and in the order of work.
  const { cost } = plan.chosen;
  expect(cost.low).toBeLessThan(cost.typical);
  expect(cost.typical).toBeLessThan(cost.high);
  expect(plan.money!.saving.low).toBeLessThanOrEqual(plan.money!.saving.high);
  expect(plan.chosen.standing.year!.discomfort_Kh).toBeLessThan(plan.before.year!.discomfort_Kh);
  const order = plan.work.map(({ candidate }) => phases.indexOf(candidate.repair.phase));
  expect(order).toEqual([...order].sort((a, b) => a - b));
}, 300_000);
