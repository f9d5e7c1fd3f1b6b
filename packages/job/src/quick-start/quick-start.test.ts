import { account, fromSi, type Mode } from '@airledger/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isDrawn, overlapArea, pointInPolygon, polygonArea } from '../edit/index.ts';
import { siOf } from '../edit/typed-text.ts';
import { readJob } from '../read-job.ts';
import type { Job } from '../schema/job-schema.ts';
import { outlineOf, pointOf } from '../survey/plan.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { type QuickStart, quickStart, quickStartProblem } from './quick-start.ts';

const usual: QuickStart = {
  name: 'House',
  floorArea: '1500 ft²',
  storeys: 1,
  yearBuilt: 1985,
  station: 'houston',
  ductPlace: 'attic',
  rooms: 8,
  equipment: 'heat pump',
};

const forms: fc.Arbitrary<QuickStart> = fc
  .record({
    name: fc.constant('House'),
    perRoom: fc.integer({ min: 130, max: 260 }),
    storeys: fc.constantFrom(1, 2),
    yearBuilt: fc.integer({ min: 1900, max: 2024 }),
    station: fc.constantFrom(
      'miami',
      'phoenix',
      'houston',
      'seattle',
      'denver',
      'chicago',
      'duluth',
      'winnipeg',
    ),
    ductPlace: fc.constantFrom<QuickStart['ductPlace']>('attic', 'basement', 'crawlspace', 'inside'),
    rooms: fc.integer({ min: 6, max: 14 }),
    equipment: fc.constantFrom<QuickStart['equipment']>('heat pump', 'furnace with air conditioner'),
  })
  .map(({ perRoom, ...form }) => ({ ...form, floorArea: `${perRoom * form.rooms} ft²` }));

const modesOf: Readonly<Record<QuickStart['equipment'], readonly Mode[]>> = {
  'heat pump': ['heating', 'cooling'],
  'furnace with air conditioner': ['heating', 'cooling'],
  furnace: ['heating'],
  'air conditioner': ['cooling'],
};

/** Reads without errors, closes its account in every mode it serves, and starves no room. */
const isSoundHouse = (form: QuickStart): void => {
  const job = quickStart(form);
  const read = readJob(job);
  expect('errors' in read ? read.errors.map((error) => error.message) : []).toEqual([]);
  const survey = surveyOf(job);
  for (const mode of modesOf[form.equipment]) {
    // `account` throws unless air and heat close.
    const { rooms, systems } = account(survey, mode);
    for (const room of rooms)
      if (room.needed_m3s > 0)
        expect(
          room.delivered_m3s / room.needed_m3s,
          `${room.room} in ${mode} of ${JSON.stringify(form)}`,
        ).toBeGreaterThan(0.6);
    for (const system of systems) expect(system.fanFlow_m3s / system.designAirflow_m3s).toBeGreaterThan(0.8);
  }
};

test('any form gives a sound house', () => {
  fc.assert(fc.property(forms, isSoundHouse), { numRuns: 6 });
}, 60_000);

test('every kind of equipment gives a sound house', () => {
  for (const equipment of ['furnace', 'air conditioner'] as const) isSoundHouse({ ...usual, equipment });
});

const house: Job = quickStart(usual);

test('rooms tile the floor: they have its area and do not overlap', () => {
  for (const storeys of [1, 2]) {
    const job = quickStart({ ...usual, storeys, rooms: 9, ductPlace: 'basement' });
    const outlines = job.rooms.map((room) => ({ storey: room.storey, outline: outlineOf(room) }));
    const area = outlines.reduce((sum, { outline }) => sum + polygonArea(outline), 0);
    expect(fromSi('area', area, 'ft²')).toBeCloseTo(1500, -1);
    for (const [i, one] of outlines.entries())
      for (const other of outlines.slice(i + 1))
        if (one.storey === other.storey) expect(overlapArea(one.outline, other.outline)).toBeLessThan(0.1);
  }
});

test('registers lie in the rooms they serve, and every duct is drawn', () => {
  for (const part of house.systems![0]!.parts) {
    expect(part.path!.length).toBeGreaterThan(1);
    expect(isDrawn(part.length)).toBe(true);
    if (!part.terminal) continue;
    const room = house.rooms.find((each) => each.id === part.terminal!.room)!;
    expect(pointInPolygon(pointOf(part.path!.at(-1)!), outlineOf(room)), part.id).toBe(true);
  }
});

test('everything in it says that it is assumed', () => {
  // Directions are the drawing's, fittings are named in words that carry no mark.
  const said = Object.entries(surveyOf(house).facts).filter(
    ([path, fact]) => fact.value !== undefined && !/facing$|fittings/.test(path),
  );
  expect(said.filter(([, fact]) => fact.howKnown !== 'assumed').map(([path]) => path)).toEqual([]);
});

test('equipment and envelope follow place and year', () => {
  const leaky = quickStart({ ...usual, yearBuilt: 1930, station: 'duluth', equipment: 'furnace' });
  const tight = quickStart({ ...usual, yearBuilt: 2020, station: 'duluth', equipment: 'furnace' });
  const output = (job: Job): number => siOf(job.systems![0]!.equipment.heating!.output, 'power')!;
  expect(output(leaky)).toBeGreaterThan(2 * output(tight));
  expect(quickStart({ ...usual, storeys: 2 }).systems!.map((system) => system.id)).toEqual([
    'lower',
    'upper',
  ]);
});

test('a form that cannot be met says what would do', () => {
  expect(quickStartProblem({ ...usual, floorArea: '1500' })).toMatch(/has no unit/);
  expect(quickStartProblem({ ...usual, storeys: 2, rooms: 5 })).toMatch(/at least 6/);
  expect(quickStartProblem({ ...usual, rooms: 18, floorArea: '600 ft²' })).toMatch(/fewer rooms/);
  expect(quickStartProblem({ ...usual, station: 'atlantis' })).toMatch(/no station/);
  expect(quickStartProblem(usual)).toBeUndefined();
  expect(() => quickStart({ ...usual, rooms: 2.5 })).toThrow(/whole number/);
});
