import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  solve,
  supplied,
  terminalFlow,
  withPart,
  withParts,
  withSystem,
} from '../../../../tests/fixtures/air-readings.ts';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import type { Leak, Survey } from '../survey/types.ts';

describe('hard states', () => {
  it('fan off: hardly anything moves', () => {
    const off = solve(
      withSystem(smallHouse, (system) => ({
        ...system,
        airHandler: { ...system.airHandler, fan: { ...system.airHandler.fan, running: false } },
      })),
    );
    expect(Math.max(...off.solution.flow_m3s.map(Math.abs))).toBeLessThan(1e-6);
  });

  it('all registers shut', () => {
    const shut = solve(
      withParts(smallHouse, (part) =>
        part.terminal && part.side === 'supply' ? { ...part, terminal: { ...part.terminal, open: 0 } } : part,
      ),
    );
    expect(supplied(shut)).toBeLessThan(0.01 * shut.systems[0]!.fanFlow_m3s);
  });

  it('a damper shut', () => {
    const shut = solve(withPart(smallHouse, 'run-living', { damper: 0 }));
    expect(Math.abs(terminalFlow(shut, 'run-living-register'))).toBeLessThan(0.005);
  });

  it('a run that fell off: its air goes to the attic', () => {
    const fallen: Leak = {
      id: 'fallen',
      place: 'joint',
      at: 'end',
      zone: 'attic',
      flow25_m3s: 0.3,
      exponent: 0.5,
    };
    const run = smallHouse.systems[0]!.parts.find((part) => part.id === 'run-bed-1')!;
    const off = solve(
      withPart(smallHouse, 'run-bed-1', { leaks: [...run.leaks, fallen], terminal: undefined }),
    );
    const leak = off.elements.findIndex((element) => element.leak?.id === 'fallen');
    expect(off.solution.flow_m3s[leak]).toBeGreaterThan(0.08);
  });

  it('no leaks at all', () => {
    const tight = solve(
      withSystem(
        withParts(smallHouse, (part) => ({ ...part, leaks: [] })),
        (system) => ({ ...system, airHandler: { ...system.airHandler, leaks: [] } }),
      ),
    );
    expect(supplied(tight)).toBeCloseTo(tight.systems[0]!.fanFlow_m3s, 10);
  });

  it('parts without length', () => {
    const short = solve(
      withParts(smallHouse, (part) =>
        part.role === 'plenum' || part.id === 'run-hall' ? { ...part, length_m: 0 } : part,
      ),
    );
    expect(terminalFlow(short, 'run-hall-register')).toBeGreaterThan(0.04);
  });

  it('a constant-flow fan holds its flow, or says that it can not', () => {
    const hold = (flow_m3s: number) =>
      solve(
        withSystem(smallHouse, (system) => ({
          ...system,
          airHandler: {
            ...system.airHandler,
            fan: { ...system.airHandler.fan, constantFlow_m3s: { heating: flow_m3s, cooling: flow_m3s } },
          },
        })),
      ).systems[0]!;
    expect(hold(0.35).fanFlow_m3s).toBeCloseTo(0.35, 4);
    expect(hold(0.35).fanAtLimit).toBe(false);
    expect(hold(0.7).fanAtLimit).toBe(true);
  });
});

describe('properties', () => {
  const runs = ['run-living', 'run-living-2', 'run-bed-1', 'run-bed-2', 'run-hall'] as const;
  const place = fc.record({
    run: fc.constantFrom(...runs, 'trunk', 'supply-plenum'),
    at: fc.constantFrom('start' as const, 'along' as const, 'end' as const),
    first_m3s: fc.double({ min: 0, max: 0.03, noNaN: true }),
    more_m3s: fc.double({ min: 0.001, max: 0.05, noNaN: true }),
  });
  const leaky = (run: string, at: Leak['at'], flow25_m3s: number) => {
    const part = smallHouse.systems[0]!.parts.find((one) => one.id === run)!;
    const extra: Leak = { id: 'extra', place: 'joint', at, zone: 'attic', flow25_m3s, exponent: 0.6 };
    return withPart(smallHouse, run, { leaks: [...part.leaks, extra] });
  };

  it('more supply leakage never delivers more', () => {
    fc.assert(
      fc.property(place, ({ run, at, first_m3s, more_m3s }) => {
        const before = supplied(solve(leaky(run, at, first_m3s)));
        const after = supplied(solve(leaky(run, at, first_m3s + more_m3s)));
        expect(after).toBeLessThan(before);
      }),
      { numRuns: 40, seed: 7 },
    );
  });

  it('of a house in balance, a leak on one branch widens the spread of delivered shares (common practice, no source)', () => {
    const balanced = withParts(smallHouse, (part) =>
      part.role === 'run' && part.side === 'supply'
        ? {
            ...part,
            joinsAt_m: 8,
            section: { shape: 'round', diameter_m: 0.178 },
            length_m: 5,
            slack: 0.05,
            leaks: [],
            terminal: { ...part.terminal!, room: 'hall' },
          }
        : part,
    );
    const spread = (survey: Survey) => {
      const air = solve(survey);
      const flows = runs.map((run) => terminalFlow(air, `${run}-register`));
      return Math.max(...flows) / Math.min(...flows);
    };
    expect(spread(balanced)).toBeCloseTo(1, 6);
    for (const flow25_m3s of [0.005, 0.02]) {
      const leak: Leak = { id: 'one', place: 'boot', at: 'end', zone: 'attic', flow25_m3s, exponent: 0.6 };
      expect(spread(withPart(balanced, 'run-bed-1', { leaks: [leak] }))).toBeGreaterThan(1.01);
    }
  });

  it('converges from any mixture of open, shut, leaky and slack', () => {
    const state = fc.record({
      open: fc.array(fc.constantFrom(0, 0.3, 1), { minLength: 5, maxLength: 5 }),
      damper: fc.array(fc.constantFrom(undefined, 0, 0.5, 1), { minLength: 5, maxLength: 5 }),
      leakScale: fc.constantFrom(0, 1, 100),
      doorsOpen: fc.boolean(),
      supply_C: fc.constantFrom(8, 24, 60),
    });
    fc.assert(
      fc.property(state, ({ open, damper, leakScale, doorsOpen, supply_C }) => {
        const house = withParts(smallHouse, (part) => {
          const i = runs.indexOf(part.id as (typeof runs)[number]);
          const leaks = part.leaks.map((leak) => ({ ...leak, flow25_m3s: leak.flow25_m3s * leakScale }));
          if (i < 0) return { ...part, leaks };
          return { ...part, leaks, damper: damper[i], terminal: { ...part.terminal!, open: open[i]! } };
        });
        const doors = house.doors.map((door) => ({ ...door, open: doorsOpen }));
        solve({ ...house, doors }, { main: { supplyTemperature_C: supply_C, returnTemperature_C: 22 } });
      }),
      { numRuns: 60, seed: 11 },
    );
  });
});
