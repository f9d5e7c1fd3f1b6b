import { account, explainShortage, modes, type Survey } from '@airledger/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smallHouse } from './fixtures/small-house.ts';
import { type Variation, varyHouse } from './fixtures/vary-house.ts';

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const variations: fc.Arbitrary<Variation> = fc.record({
  leak: unit,
  slack: unit,
  insulation: unit,
  outdoor: unit,
  capacity: unit,
  doorsOpen: fc.boolean(),
  fanRunning: fc.integer({ min: 0, max: 9 }).map((n) => n > 0),
  registerOpen: unit,
  twoSystems: fc.boolean(),
  ventilated: fc.boolean(),
  bypass: fc.boolean(),
});
const runs = { numRuns: 150, seed: 20250101 };
const mode = fc.constantFrom(...modes);

/** Output that the house asks of its equipment with every room at its set point, W. */
const asked_W = (survey: Survey, inMode: (typeof modes)[number]) => {
  const { heat } = account(survey, inMode);
  const sign = inMode === 'heating' ? 1 : -1;
  return heat.atSetPoint.systems.reduce(
    (sum, system, s) => sum + heat.atSetPoint.share * (sign * system.output_W + sign * heat.fanPower_W[s]!),
    0,
  );
};

describe('the account', () => {
  test('closes in air, heat and moisture, with finite figures, for any house', () => {
    fc.assert(
      fc.property(variations, mode, (variation, inMode) => {
        const { ledger, rooms, air } = account(varyHouse(variation), inMode);
        expect(air.solution.converged).toBe(true);
        expect(
          Math.max(ledger.residual.air, ledger.residual.sensible, ledger.residual.latent),
        ).toBeLessThanOrEqual(1e-9);
        for (const room of rooms) {
          const { arrives_C, losses, ...figures } = room;
          for (const value of Object.values(figures))
            if (typeof value === 'number') expect(value).toSatisfy(Number.isFinite);
          if (arrives_C !== undefined) expect(arrives_C).toSatisfy(Number.isFinite);
          for (const loss of losses)
            expect(loss.air_m3s + loss.sensible_W + loss.drop_Pa).toSatisfy(Number.isFinite);
        }
      }),
      runs,
    );
  });

  test('loads, what ducts add to them and what ducts lose make up the output asked for', () => {
    fc.assert(
      fc.property(variations, mode, (variation, inMode) => {
        const survey = varyHouse({
          ...variation,
          fanRunning: true,
          bypass: false,
          capacity: Math.max(0.3, variation.capacity),
          leak: variation.leak / 4,
        });
        const { house, heat } = account(survey, inMode);
        fc.pre(heat.atSetPoint.share > 0 && heat.atSetPoint.systems.every((system) => !system.short));
        const total = house.load_W + house.forcedLoad_W + house.ductLoss_W;
        expect(total).toBeCloseTo(asked_W(survey, inMode), 3);
      }),
      runs,
    );
  });

  test('more insulation never asks for more output', () => {
    fc.assert(
      fc.property(
        variations,
        mode,
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (variation, inMode, more) => {
          const base = {
            ...variation,
            fanRunning: true,
            bypass: false,
            leak: variation.leak / 8,
            capacity: 1,
            insulation: variation.insulation / 2,
          };
          fc.pre(account(varyHouse(base), inMode).heat.atSetPoint.systems.every((system) => !system.short));
          const before = asked_W(varyHouse(base), inMode);
          const after = asked_W(varyHouse({ ...base, insulation: base.insulation + more / 2 }), inMode);
          expect(after).toBeLessThanOrEqual(before + 1e-6 * before);
        },
      ),
      runs,
    );
  });

  test('is the same whatever the order of rooms, surfaces, doors and parts', () => {
    fc.assert(
      fc.property(variations, mode, (variation, inMode) => {
        const survey = varyHouse({ ...variation, fanRunning: true });
        const turned: Survey = {
          ...survey,
          rooms: survey.rooms.toReversed(),
          surfaces: survey.surfaces.toReversed(),
          doors: survey.doors.toReversed(),
          systems: survey.systems.map((system) => ({ ...system, parts: system.parts.toReversed() })),
        };
        const there = account(survey, inMode);
        const back = account(turned, inMode);
        for (const room of there.rooms) {
          const same = back.rooms.find((one) => one.room === room.room)!;
          expect(same.delivered_m3s).toBeCloseTo(room.delivered_m3s, 8);
          expect(same.predicted_C).toBeCloseTo(room.predicted_C, 4);
        }
      }),
      { ...runs, numRuns: 60 },
    );
  });

  test('does not depend on what was solved before', () => {
    fc.assert(
      fc.property(variations, variations, mode, (first, second, inMode) => {
        const cold = account(varyHouse(second), inMode);
        const warm = account(varyHouse(second), inMode, account(varyHouse(first), inMode));
        cold.rooms.forEach((room, r) => {
          expect(warm.rooms[r]!.delivered_m3s).toBeCloseTo(room.delivered_m3s, 8);
          expect(warm.rooms[r]!.predicted_C).toBeCloseTo(room.predicted_C, 4);
        });
      }),
      { ...runs, numRuns: 60 },
    );
  });

  test('closes for a room that nothing connects to anything, as when a house is begun', () => {
    const alone: Survey = {
      ...smallHouse,
      rooms: [{ ...smallHouse.rooms[1]!, envelopeShare: 0 }],
      zones: [],
      surfaces: [],
      doors: [],
      systems: [],
    };
    for (const inMode of modes) {
      const { ledger, rooms } = account(alone, inMode);
      expect(Math.max(ledger.residual.sensible, ledger.residual.latent)).toBeLessThanOrEqual(1e-9);
      expect(rooms[0]!.predicted_C).toSatisfy(Number.isFinite);
    }
  });

  test('a room drifts to its thermostat only where the thermostat is', () => {
    const { rooms } = account(smallHouse, 'cooling');
    expect(rooms.find((room) => room.room === 'hall')!.predicted_C).toBeCloseTo(24, 6);
    expect(rooms.find((room) => room.room === 'bed-2')!.predicted_C).toBeGreaterThan(26);
  });
});

describe('the explanation', () => {
  test('adds up to the shortage, and names the slack run', () => {
    const house = account(smallHouse, 'cooling');
    const { causes, layout_m3s, shortage_m3s } = explainShortage(house, 'bed-2');
    const sum = causes.reduce((total, cause) => total + cause.air_m3s, layout_m3s);
    expect(sum).toBeCloseTo(shortage_m3s, 9);
    expect(causes[0]!.id).toBe('slack');
  });
});
