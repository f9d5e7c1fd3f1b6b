import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { randomHouse } from '../../../../tests/fixtures/random-house.ts';
import { account } from '../account/account.ts';
import { airTemperatures } from '../account/air-temperatures.ts';
import { solveAir } from '../air/solve-air.ts';
import { calibrate, calibratedSurvey } from '../calibrate/calibrate.ts';
import type { Reading } from '../readings/types.ts';
import { curesFor } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
import { explainImbalance } from './explain-imbalance.ts';
import { explainRoom } from './explain-room.ts';
import { explainShortage, worthBySubset } from './explain-shortage.ts';
import { explainWithRange } from './explain-with-range.ts';
import { imbalanceWithRange } from './imbalance-with-range.ts';
import { registerHeat } from './register-heat.ts';
import { shapleyValues } from './shapley.ts';
import type { RoomGroup } from './types.ts';
import { unevenGroups } from './uneven-groups.ts';

const cfm = 4.719474e-4;
const houseOf = (seed: number, doorsOpen = false) =>
  randomHouse(seed, {
    leakage25_cfm: { cabinet: 24, returnJoint: 4, returnDucts: 60, supplyJoint: 3, supplyDucts: 120 },
    fanFlow_cfm: [900, 1300],
    doorsOpen,
  });
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

describe('shortages split over causes', () => {
  it('solves every subset as the survey with those cures is solved', () => {
    const house = account(houseOf(3), 'cooling');
    const cures = curesFor(house.survey, 'bed-2');
    const worth = worthBySubset(house, cures, (air) => deliveredTo(air, ['bed-2']));
    const conditions = airTemperatures(house.survey, 'cooling', house.loads);
    const masks = [...worth.keys()].filter((mask) => mask % 37 === 0 || mask > worth.length - 3);
    for (const mask of masks) {
      const survey = cures.reduce(
        (cured, cure, k) => (mask & (1 << k) ? cure.apply(cured) : cured),
        house.survey,
      );
      expect(worth[mask]).toBeCloseTo(deliveredTo(solveAir(survey, 'cooling', conditions), ['bed-2']), 9);
    }
  });

  it('does not mind the order of causes', () => {
    const house = account(houseOf(3), 'cooling');
    const cures = curesFor(house.survey, 'bed-2');
    const valuesOf = (some: typeof cures) =>
      shapleyValues(
        some.length,
        worthBySubset(house, some, (air) => deliveredTo(air, ['bed-2'])),
      );
    const turned = valuesOf(cures.toReversed()).toReversed();
    valuesOf(cures).forEach((value, k) => {
      expect(value).toBeCloseTo(turned[k]!, 9);
    });
  });

  it('parts add up to the shortage, in any house', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.boolean(), (seed, open) => {
        const house = account(houseOf(seed, open), 'cooling');
        const { causes, layout_m3s, shortage_m3s } = explainShortage(house, 'bed-1');
        const parts = sum(causes.map(({ air_m3s }) => air_m3s)) + layout_m3s;
        expect(Math.abs(parts - shortage_m3s)).toBeLessThan(1e-6 * Math.max(0.01, Math.abs(shortage_m3s)));
        // An open door is no cause, and is not named as one.
        expect(causes.some(({ id }) => id === 'return-path')).toBe(!open);
      }),
      { numRuns: 3, seed: 11 },
    );
  });
});

describe('shortages of heat', () => {
  it.each(['heating', 'cooling'] as const)('begin at the heat that the account delivers: %s', (mode) => {
    const house = account(houseOf(3), mode);
    const { floating, flow, specificHeat_JkgK } = house.heat;
    const brought = registerHeat(house, [])(house.air)[0]!;
    house.survey.rooms.forEach(({ id }, r) => {
      let expected = 0;
      house.air.elements.forEach(({ kind, side }, e) => {
        const into = house.air.nodes[flow.lower[e]!]!;
        if (kind !== 'terminal' || side !== 'supply' || into.id !== id) return;
        const warmer_K = floating.leavingTemperature_C[e]! - house.loads.indoor.temperature_C;
        expected += floating.share * flow.mass_kgs[e]! * specificHeat_JkgK * warmer_K;
      });
      expect(brought[r]! * (mode === 'heating' ? 1 : -1)).toBeCloseTo(expected, 6);
    });
  });

  it('add up in both modes, have the walls that conduct among them, and their air is that of explainShortage', () => {
    for (const mode of ['heating', 'cooling'] as const) {
      const house = account(houseOf(8), mode);
      const { air, heat } = explainRoom(house, 'bed-1');
      const parts = sum(heat.causes.map(({ heat_W }) => heat_W)) + heat.equipment_W + heat.layout_W;
      expect(Math.abs(parts - heat.shortage_W)).toBeLessThan(1e-6 * Math.max(1, Math.abs(heat.shortage_W)));
      expect(heat.causes.find(({ id }) => id === 'own-walls')!.heat_W).toBeGreaterThan(0);
      expect(air).toEqual(explainShortage(house, 'bed-1'));
    }
  });

  it('do not name walls that pass nothing, nor a leak that is none', () => {
    const survey = houseOf(8);
    const tight = {
      ...survey,
      systems: survey.systems.map((system) => ({
        ...system,
        airHandler: { ...system.airHandler, leaks: [] },
        parts: system.parts.map((part) => ({ ...part, leaks: [], zone: 'bed-2', slack: 0 })),
      })),
    };
    const ids = explainRoom(account(tight, 'cooling'), 'bed-1').heat.causes.map(({ id }) => id);
    expect(ids.filter((id) => /joints|boots|leaks|runs|slack/.test(id))).toEqual([]);
  });
});

describe.each(['air', 'heat'] as const)('imbalance of %s between rooms', (of) => {
  const house = account(houseOf(5), 'cooling');
  const [one, other]: readonly [RoomGroup, RoomGroup] = [
    { name: 'bed-1', rooms: ['bed-1'] },
    { name: 'bed-2', rooms: ['bed-2'] },
  ];
  const imbalance = explainImbalance(house, of, one, other);

  it('parts add up to the difference', () => {
    const parts = sum(imbalance.causes.map(({ share }) => share)) + imbalance.layout;
    expect(Math.abs(parts - imbalance.difference)).toBeLessThan(1e-12);
    expect(imbalance.shares[0] - imbalance.shares[1]).toBe(imbalance.difference);
  });

  it('begins at what the rooms get of what they need', () => {
    const ofRoom = (room: string) => {
      if (of === 'heat') {
        const { needed_W, shortage_W } = explainRoom(house, room).heat;
        return (needed_W - shortage_W) / needed_W;
      }
      const standing = house.rooms.find((each) => each.room === room)!;
      return standing.delivered_m3s / standing.needed_m3s;
    };
    expect(imbalance.shares[0]).toBeCloseTo(ofRoom('bed-1'), 9);
    expect(imbalance.shares[1]).toBeCloseTo(ofRoom('bed-2'), 9);
  });

  it('turns its sign with the order of the rooms, part by part', () => {
    const turned = explainImbalance(house, of, other, one);
    expect(turned.difference).toBeCloseTo(-imbalance.difference, 9);
    for (const { id, share } of imbalance.causes)
      expect(turned.causes.find((cause) => cause.id === id)!.share).toBeCloseTo(-share, 9);
  });

  it('is looked for where it is greatest', () => {
    const greatest = unevenGroups(house).find((groups) => groups.kind === 'rooms' && groups.of === of)!;
    const { difference } = explainImbalance(house, of, greatest.better, greatest.worse);
    expect(difference).toBeGreaterThanOrEqual(Math.abs(imbalance.difference) - 1e-9);
  });
});

test('what needs next to nothing is not weighed, though it gets many times its need', () => {
  const house = account(houseOf(5), 'cooling');
  const small = {
    ...house,
    rooms: house.rooms.map((room) => (room.room === 'bed-1' ? { ...room, needed_m3s: 1e-4 } : room)),
  };
  const [inAir] = unevenGroups(small);
  expect(inAir!.of).toBe('air');
  expect([inAir!.better.name, inAir!.worse.name]).not.toContain('bed-1');
});

describe('range of causes over what readings allow', () => {
  const survey = houseOf(7);
  const flows = account(survey, 'cooling').air;
  const readings = flows.elements.flatMap((element, e): Reading[] =>
    element.kind === 'terminal' && element.side === 'supply'
      ? [
          {
            id: element.terminal!,
            subject: { kind: 'terminal flow', terminal: element.terminal!, hood: 'powered' },
            setup: { fan: 'cooling', doors: 'as surveyed', registers: 'open', filter: 'in', side: 'both' },
            value: flows.solution.flow_m3s[e]!,
            accuracy: 0.05 * flows.solution.flow_m3s[e]! + 3 * cfm,
            state: '',
            path: '',
          },
        ]
      : [],
  );
  const calibration = calibrate(survey, readings, { draws: 12, depth: 1 });
  const found = account(calibratedSurvey(survey, calibration), 'cooling');
  const explained = explainWithRange(found, survey, calibration, 'bed-1')!;

  it('gives back the flows that were read, within their accuracy', () => {
    for (const { id, value, accuracy } of readings) {
      const at = found.air.elements.findIndex(({ kind, terminal }) => kind === 'terminal' && terminal === id);
      expect(Math.abs(found.air.solution.flow_m3s[at]! - value), id).toBeLessThan(2 * accuracy);
    }
  });

  it('keeps the exact parts of the most probable house and puts a range beside each', () => {
    const exact = explainShortage(found, 'bed-1');
    expect(explained.air.causes.map(({ id, air_m3s }) => [id, air_m3s])).toEqual(
      exact.causes.map(({ id, air_m3s }) => [id, air_m3s]),
    );
    for (const { low_m3s, high_m3s } of explained.air.causes) expect(low_m3s).toBeLessThanOrEqual(high_m3s);
    const { low, high } = explained.air.shortageRange_m3s;
    const width = high - low;
    expect(width).toBeGreaterThan(0);
    expect(explained.air.shortage_m3s).toBeGreaterThan(low - width);
    expect(explained.air.shortage_m3s).toBeLessThan(high + width);
  });

  it('gives no range where the air of another system arrives, of which nothing was read', () => {
    const other = { ...calibration, system: 'another' };
    expect(explainWithRange(found, survey, other, 'bed-1')).toBeUndefined();
  });

  it('does the same for heat, and for the imbalance between rooms', () => {
    const { heat } = explained;
    expect(heat.causes.map(({ heat_W }) => heat_W)).toEqual(
      explainRoom(found, 'bed-1').heat.causes.map(({ heat_W }) => heat_W),
    );
    expect(heat.shortageRange_W.high).toBeGreaterThan(heat.shortageRange_W.low);
    const { low, high } = heat.equipmentRange_W;
    expect(heat.equipment_W).toBe(explainRoom(found, 'bed-1').heat.equipment_W);
    expect(high - low).toBeGreaterThan(0);
    expect(low).toBeLessThanOrEqual(heat.equipment_W);
    expect(high).toBeGreaterThanOrEqual(heat.equipment_W);
    // What all rooms together get hangs on less than what one of them gets.
    expect(high - low).toBeLessThan(heat.layoutRange_W.high - heat.layoutRange_W.low);
    for (const { kind, of, better, worse } of unevenGroups(found)) {
      if (kind !== 'rooms') continue;
      const ranged = imbalanceWithRange(found, survey, calibration, of, better, worse)!;
      expect(ranged.difference).toBe(explainImbalance(found, of, better, worse).difference);
      const width = ranged.differenceRange.high - ranged.differenceRange.low;
      expect(width).toBeGreaterThan(0);
      expect(ranged.difference).toBeGreaterThan(ranged.differenceRange.low - width);
      expect(ranged.difference).toBeLessThan(ranged.differenceRange.high + width);
    }
  });

  it('tells two rooms of one name apart', () => {
    const { better, worse } = unevenGroups(found).find(({ kind }) => kind === 'rooms')!;
    const alike = (name: string) => [better, { ...worse, name }] as const;
    for (const of of ['air', 'heat'] as const) {
      const figures = (name: string) =>
        imbalanceWithRange(found, survey, calibration, of, ...alike(name))!.causes.map(
          ({ share, low, high }) => [share, low, high],
        );
      expect(figures(better.name)).toEqual(figures(worse.name));
    }
  });
});
