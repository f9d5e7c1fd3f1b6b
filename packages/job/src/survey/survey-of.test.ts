import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Job, readJob, setField, surveyOf, valueAt } from '../index.ts';

const read = readJob(
  readFileSync(new URL('../../../../tests/fixtures/tiny.airledger.json', import.meta.url), 'utf8'),
);
if ('errors' in read) throw new Error('The fixture is broken.');
const { job } = read;
const survey = surveyOf(job, 'as-found');
const partOf = (of: Job, id: string, state = 'as-found') =>
  surveyOf(of, state).systems[0]!.parts.find((part) => part.id === id)!;

describe('surveyOf', () => {
  test('converts what is typed', () => {
    expect(survey.site.heatingDryBulb_C).toBeCloseTo(-6.6667, 3);
    expect(survey.rooms[0]!.floorArea_m2).toBeCloseTo(27.870912, 6);
    const run = partOf(job, 'run-living');
    expect(run.section).toEqual({ shape: 'round', diameter_m: expect.closeTo(0.2032, 6) });
    expect(run.joinsAt_m).toBeCloseTo(0.6096, 6);
    expect(run.leaks.map((leak) => [leak.id, leak.zone])).toEqual([
      ['run-living/takeoff', 'attic'],
      ['run-living/boot', 'attic'],
    ]);
  });

  test('a wall is net of its windows, which face as it does', () => {
    const [wall, window] = survey.surfaces;
    expect(wall!.area_m2 + window!.area_m2).toBeCloseTo(20 * 8 * 0.09290304, 6);
    expect(window!.facing_deg).toBe(180);
  });

  test('shares of leakage, and of people and appliances, add up', () => {
    expect(survey.rooms.reduce((sum, room) => sum + room.envelopeShare, 0)).toBeCloseTo(1, 12);
    const gains = survey.rooms.reduce((sum, room) => sum + room.internalSensible_W, 0);
    expect(gains).toBeCloseTo(136 + 2.2 * survey.house.conditionedFloorArea_m2 + 22 * 2, 6);
    for (const room of survey.rooms)
      expect(room.envelopeTo.reduce((sum, { share }) => sum + share, 0)).toBeLessThanOrEqual(1);
  });

  test('defaults are on record with their source', () => {
    expect(survey.facts['systems/main/parts/run-bedroom/slack']).toEqual({
      typed: '15 % (4 to 30 %)',
      howKnown: 'assumed',
      defaulted: true,
      source: expect.stringContaining('Abushakra'),
      value: 0.15,
      low: 0.04,
      high: expect.closeTo(0.3, 12),
    });
    expect(survey.facts['systems/main/parts/run-living/insulation']).toMatchObject({
      typed: 'R-6',
      howKnown: 'read off',
      defaulted: false,
    });
    for (const [path, fact] of Object.entries(survey.facts))
      expect(fact.defaulted ? fact.source : 'typed', path).toBeTruthy();
  });

  test('every number is finite', () => {
    const check = (value: unknown, path: string): void => {
      if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
      else if (typeof value === 'object' && value !== null)
        for (const [key, item] of Object.entries(value)) check(item, `${path}/${key}`);
    };
    check(survey, '');
  });

  test('a side on which nothing is said of leaks gets the usual leakage, the other keeps its own', () => {
    const [main] = survey.systems;
    expect(main!.spreadLeakage).toEqual([
      {
        side: 'return',
        flow25_m3s: expect.closeTo(0.11 * main!.designAirflow_m3s.cooling, 9),
        exponent: 0.6,
      },
    ]);
  });

  test('an unmentioned attic gets a roof, vents and a volume', () => {
    expect(survey.surfaces.find((surface) => surface.id === 'attic/roof')).toMatchObject({
      beyond: 'outdoors',
      kind: 'roof',
    });
    expect(survey.zones[0]!.openingCoefficient).toBeGreaterThan(0);
  });

  test('a table value of a filter is at its face speed', () => {
    const { filter } = survey.systems[0]!.airHandler;
    const face = 16 * 12 * 0.00064516;
    expect(filter.flow_m3s).toBeCloseTo(face * 300 * 0.00508, 9);
  });

  test('blower tables that include coil and filter get their drops back', () => {
    const flow = 400 * 0.0004719474432;
    const typed = setField(job, 'as-found', 'systems/main/airHandler/fan', {
      coolingTable: ['400 cfm at 0.5 in.wc', '500 cfm at 0.2 in.wc'],
      tableIncludes: ['coil', 'filter'],
    });
    const { fan, coil, filter } = surveyOf(typed, 'as-found').systems[0]!.airHandler;
    const drop = (of: typeof coil): number => of.drop_Pa * (flow / of.flow_m3s) ** of.exponent;
    expect(fan.tables.cooling[0]![1]).toBeCloseTo(0.5 * 249.08891 + drop(coil) + drop(filter), 6);
    expect(fan.tables.heating).toEqual(fan.tables.cooling);
  });

  test('a state changes only what it says', () => {
    const [before, after] = ['as-found', 'as-specified'].map((state) => partOf(job, 'run-bedroom', state));
    expect({ ...after, slack: before!.slack }).toEqual(before);
    expect(after!.slack).toBeCloseTo(0.04, 12);
  });

  test('sampling draws every range once, typed or usual, and nothing else', () => {
    const drawn: string[] = [];
    const sampled = surveyOf(job, 'as-found', (path, { low, high }) => {
      drawn.push(path);
      expect(low).toBeLessThan(high);
      return high;
    });
    expect(drawn.sort()).toEqual([
      'house/leakage50',
      'systems/main/parts/return-run/slack',
      'systems/main/parts/run-bedroom/slack',
      'systems/main/parts/run-living/slack',
    ]);
    expect(sampled.house.leakage50_m3s).toBeCloseTo(1.1 * survey.house.leakage50_m3s, 9);
  });

  test('every fact can be typed over at its path, except of surfaces that nobody typed', () => {
    const typed = Object.entries(survey.facts).filter(
      ([path, fact]) =>
        fact.value !== undefined && !path.startsWith('zones/attic/surfaces') && !path.includes('/fittings/'),
    );
    expect(typed.length).toBeGreaterThan(60);
    for (const [path, fact] of typed) {
      const parents = path.split('/').slice(0, -1);
      let edited = job;
      for (let i = 1; i <= parents.length; i++) {
        const parent = parents.slice(0, i).join('/');
        if (valueAt(edited, parent) === undefined) edited = setField(edited, 'as-found', parent, {});
      }
      const read = readJob(setField(edited, 'as-found', path, fact.typed));
      const errors = 'errors' in read ? read.errors.map((error) => error.message) : [];
      expect(
        errors.filter((message) => message.includes('unknown field') || message.startsWith(path)),
      ).toEqual([]);
    }
  });
});
