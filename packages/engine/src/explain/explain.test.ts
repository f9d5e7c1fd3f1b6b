import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { randomHouse } from '../../../../tests/fixtures/random-house.ts';
import { account } from '../account/account.ts';
import { airTemperatures } from '../account/air-temperatures.ts';
import { solveAir } from '../air/solve-air.ts';
import { calibrate, calibratedSurvey } from '../calibrate/calibrate.ts';
import type { Reading } from '../readings/types.ts';
import { curesFor } from './cures.ts';
import { explainWithRange } from './explain-draws.ts';
import { explainImbalance } from './explain-imbalance.ts';
import { deliveredTo, explainShortage, worthBySubset } from './explain-shortage.ts';

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
    const worth = worthBySubset(house, cures, (air) => deliveredTo(air, 'bed-2'));
    const conditions = airTemperatures(house.survey, 'cooling', house.loads);
    for (const mask of [0, 1, 5, worth.length - 2, worth.length - 1]) {
      const survey = cures.reduce(
        (cured, cure, k) => (mask & (1 << k) ? cure.apply(cured) : cured),
        house.survey,
      );
      expect(worth[mask]).toBeCloseTo(deliveredTo(solveAir(survey, 'cooling', conditions), 'bed-2'), 9);
    }
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

describe('imbalance between rooms', () => {
  const house = account(houseOf(5), 'cooling');
  const imbalance = explainImbalance(house, 'bed-1', 'bed-2');

  it('parts add up to the difference', () => {
    const parts = sum(imbalance.causes.map(({ share }) => share)) + imbalance.layout;
    expect(Math.abs(parts - imbalance.difference)).toBeLessThan(1e-6);
  });

  it('turns its sign with the order of the rooms, part by part', () => {
    const turned = explainImbalance(house, 'bed-2', 'bed-1');
    expect(turned.difference).toBeCloseTo(-imbalance.difference, 9);
    for (const { id, share } of imbalance.causes)
      expect(turned.causes.find((cause) => cause.id === id)!.share).toBeCloseTo(-share, 9);
  });
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
  const explained = explainWithRange(found, survey, calibration, 'bed-1');

  it('gives back the flows that were read, within their accuracy', () => {
    for (const { id, value, accuracy } of readings) {
      const at = found.air.elements.findIndex(({ kind, terminal }) => kind === 'terminal' && terminal === id);
      expect(Math.abs(found.air.solution.flow_m3s[at]! - value), id).toBeLessThan(2 * accuracy);
    }
  });

  it('keeps the exact parts of the most probable house and puts a range beside each', () => {
    const exact = explainShortage(found, 'bed-1');
    expect(explained.causes.map(({ id, air_m3s }) => [id, air_m3s])).toEqual(
      exact.causes.map(({ id, air_m3s }) => [id, air_m3s]),
    );
    for (const { low_m3s, high_m3s } of explained.causes) expect(low_m3s).toBeLessThanOrEqual(high_m3s);
    const { low, high } = explained.shortageRange_m3s;
    const width = high - low;
    expect(width).toBeGreaterThan(0);
    expect(explained.shortage_m3s).toBeGreaterThan(low - width);
    expect(explained.shortage_m3s).toBeLessThan(high + width);
  });
});
