import { describe, expect, it } from 'vitest';
import {
  pressure,
  solve,
  supplied,
  terminalFlow,
  withPart,
  withParts,
  withSystem,
} from '../../../../tests/fixtures/air-readings.ts';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { ductFriction } from '../ducts/duct-friction.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import type { DuctPart } from '../survey/types.ts';
import { referenceAir, siteDensity } from './air-density.ts';
import { solveAir } from './solve-air.ts';

describe('air of the small house', () => {
  const air = solve(smallHouse);

  it('accounts for every flow of the air handler', () => {
    const leaks = (side: 'supply' | 'return') =>
      air.elements.reduce(
        (sum, { kind, side: own }, i) =>
          kind === 'leak' && own === side ? sum + air.solution.flow_m3s[i]! : sum,
        0,
      );
    const fan = air.systems[0]!.fanFlow_m3s;
    expect(supplied(air) + leaks('supply')).toBeCloseTo(fan, 10);
    expect(terminalFlow(air, 'return-grille') - leaks('return')).toBeCloseTo(fan, 10);
  });

  it('has suction before the fan, pressure behind it and less of both at the far ends', () => {
    const [system] = air.systems;
    expect(system!.fanRise_Pa).toBeGreaterThan(system!.externalStatic_Pa);
    expect(system!.returnStatic_Pa).toBeLessThan(-5);
    expect(system!.supplyStatic_Pa).toBeGreaterThan(pressure(air, 'run-bed-2'));
    expect(pressure(air, 'bed-1')).toBeGreaterThan(pressure(air, 'hall'));
  });

  it('reads external static before an external coil and behind the filter', () => {
    const furnace = solve(
      withSystem(smallHouse, (system) => ({
        ...system,
        airHandler: { ...system.airHandler, coilExternal: true },
      })),
    );
    const [system] = furnace.systems;
    const drop = (kind: string) => {
      const element = furnace.elements.find((one) => one.kind === kind)!;
      return furnace.solution.pressure_Pa[element.from]! - furnace.solution.pressure_Pa[element.to]!;
    };
    expect(drop('coil')).toBeGreaterThan(30);
    // Both velocity pressures are of the same area and flow.
    expect(system!.externalStatic_Pa).toBeCloseTo(system!.fanRise_Pa, 8);
    expect(system!.returning).not.toBe(system!.leaving);
  });

  it('gives the same answer warm and cold', () => {
    const edited = withPart(smallHouse, 'run-bed-2', { slack: 0.02, damper: 0.6 });
    const warm = solve(edited, undefined, air);
    const cold = solve(edited);
    warm.solution.flow_m3s.forEach((flow, i) => {
      expect(Math.abs(flow - cold.solution.flow_m3s[i]!)).toBeLessThan(1e-9);
    });
    // The earlier result is not touched by a solve that starts from it.
    expect(solve(smallHouse).solution.flow_m3s[0]).toBeCloseTo(air.solution.flow_m3s[0]!, 10);
  });

  it('takes another shape of house as a new start', () => {
    const shorter = withSystem(smallHouse, (system) => ({
      ...system,
      parts: system.parts.filter((part) => part.id !== 'run-hall'),
    }));
    const warm = solve(shorter, undefined, air);
    expect(warm.elements.length).toBeLessThan(air.elements.length);
    expect(supplied(warm)).toBeCloseTo(supplied(solve(shorter)), 9);
  });

  it('gives a straighter run more air', () => {
    const straighter = solve(withPart(smallHouse, 'run-bed-2', { slack: 0.03 }));
    expect(terminalFlow(straighter, 'run-bed-2-register')).toBeGreaterThan(
      1.2 * terminalFlow(air, 'run-bed-2-register'),
    );
  });

  it('lowers the pressure of a room whose door opens', () => {
    const open = solve({ ...smallHouse, doors: smallHouse.doors.map((door) => ({ ...door, open: true })) });
    expect(Math.abs(pressure(open, 'bed-1') - pressure(open, 'hall'))).toBeLessThan(0.1);
    expect(terminalFlow(open, 'run-bed-1-register')).toBeGreaterThan(terminalFlow(air, 'run-bed-1-register'));
  });

  it('shares a transfer grille with the door', () => {
    const transfer = {
      id: 'transfer-bed-1',
      kind: 'transfer grille',
      between: ['bed-1', 'hall'],
      freeArea_m2: 0.03,
      lossCoefficient: 2.8,
    } as const;
    const relieved = solve({ ...smallHouse, transfers: [transfer] });
    expect(pressure(relieved, 'bed-1')).toBeLessThan(0.5 * pressure(air, 'bed-1'));
  });
});

describe('parts of larger systems', () => {
  const system = smallHouse.systems[0]!;

  it('two systems share rooms and attic', () => {
    const twin = { ...system, id: 'second', airHandler: { ...system.airHandler, id: 'second/air-handler' } };
    const both = solve({ ...smallHouse, systems: [system, twin] });
    expect(both.systems.map((one) => one.fanFlow_m3s)).toHaveLength(2);
    expect(both.systems[0]!.fanFlow_m3s).toBeCloseTo(both.systems[1]!.fanFlow_m3s, 8);
  });

  it('a bypass returns air to the return side', () => {
    const bypass: DuctPart = {
      ...system.parts.find((part) => part.id === 'trunk')!,
      id: 'bypass',
      role: 'bypass',
      joins: 'supply-plenum',
      endsOn: 'return-plenum',
      section: { shape: 'round', diameter_m: 0.2 },
      length_m: 2,
      damper: 0.5,
      leaks: [],
    };
    const bypassed = solve({ ...smallHouse, systems: [{ ...system, parts: [...system.parts, bypass] }] });
    const index = bypassed.elements.findIndex((element) => element.kind === 'bypass');
    expect(bypassed.solution.flow_m3s[index]).toBeGreaterThan(0.02);
    expect(supplied(bypassed)).toBeLessThan(supplied(solve(smallHouse)));
  });

  it('a filter behind the grille takes its share of the return', () => {
    const filter = { drop_Pa: 30, flow_m3s: 0.45, exponent: 1.4 };
    const run = system.parts.find((part) => part.id === 'return-run')!;
    const filtered = solve(withPart(smallHouse, 'return-run', { terminal: { ...run.terminal!, filter } }));
    expect(filtered.systems[0]!.returnStatic_Pa).toBeLessThan(
      solve(smallHouse).systems[0]!.returnStatic_Pa - 15,
    );
  });

  it('ventilators move what they are set to, and an exhaust fan draws the house down', () => {
    const exhaust = {
      id: 'bath',
      kind: 'exhaust',
      room: 'hall',
      flow_m3s: 0.04,
      sensibleRecovery: 0,
      latentRecovery: 0,
      running: true,
    } as const;
    const drawn = solve({ ...smallHouse, ventilators: [exhaust] });
    expect(pressure(drawn, 'hall')).toBeLessThan(pressure(solve(smallHouse), 'hall'));
    const balanced = {
      ...exhaust,
      id: 'recovery',
      kind: 'balanced',
      room: undefined,
      returnPart: 'return-plenum',
    } as const;
    const tied = solve({ ...smallHouse, ventilators: [balanced] });
    const flows = tied.elements.flatMap(({ kind }, i) =>
      kind === 'ventilator' ? [tied.solution.flow_m3s[i]!] : [],
    );
    expect(flows).toEqual([0.04, 0.04]);
  });

  it('losses of tees by the split of the flows', () => {
    const tee = { id: 'tee', kind: 'tee', name: 'tee', count: 1 };
    const second: DuctPart = {
      ...system.parts.find((part) => part.id === 'return-run')!,
      id: 'return-2',
      joins: 'return-run',
      joinsAt_m: 1,
      section: { shape: 'round', diameter_m: 0.25 },
      fittings: [{ ...tee, followsSplit: 'converging' }],
      leaks: [],
    };
    const diverging = withPart(smallHouse, 'run-living', {
      fittings: [{ ...tee, followsSplit: 'diverging' }],
    });
    const both = solve(
      withSystem(diverging, (one) => ({
        ...one,
        parts: [
          ...one.parts,
          { ...second, terminal: { ...second.terminal!, id: 'grille-2', room: 'living' } },
        ],
      })),
    );
    expect(terminalFlow(both, 'grille-2')).toBeGreaterThan(0.02);
    expect(terminalFlow(both, 'run-living-register')).toBeGreaterThan(0.08);
  });

  it('spreads a whole-system leakage test over silent parts', () => {
    const silent = withParts(smallHouse, (part) => ({ ...part, leaks: [] }));
    const tested = solve(
      withSystem(silent, (one) => ({
        ...one,
        spreadLeakage: [
          { side: 'supply', flow25_m3s: 0.04, exponent: 0.6 },
          { side: 'return', flow25_m3s: 0.02, exponent: 0.6 },
        ],
      })),
    );
    const leaks = tested.elements.filter(
      (element) => element.kind === 'leak' && element.leak!.id.includes('spread'),
    );
    expect(leaks.length).toBeGreaterThan(15);
    const flow = supplied(tested);
    expect(flow).toBeLessThan(supplied(solve(silent)));
  });
});

describe('thin and thick air', () => {
  it('a fan at altitude moves nearly the same volume and much less mass', () => {
    const high = { ...smallHouse, site: { ...smallHouse.site, elevation_m: 1655 } };
    const [low, thin] = [solve(smallHouse), solve(high)];
    const volumeRatio = thin.systems[0]!.fanFlow_m3s / low.systems[0]!.fanFlow_m3s;
    expect(volumeRatio).toBeGreaterThan(0.97);
    expect(volumeRatio).toBeLessThan(1.03);
    const pressureRatio = thin.systems[0]!.fanRise_Pa / low.systems[0]!.fanRise_Pa;
    expect(pressureRatio).toBeLessThan(0.86);
    expect(pressureRatio).toBeGreaterThan(0.8);
  });

  it('cold supply air is drawn through as more mass', () => {
    const cold = solve(smallHouse, { main: { supplyTemperature_C: 12, returnTemperature_C: 24 } });
    const hot = solve(smallHouse, { main: { supplyTemperature_C: 50, returnTemperature_C: 24 } });
    expect(cold.systems[0]!.fanFlow_m3s).toBeGreaterThan(1.04 * hot.systems[0]!.fanFlow_m3s);
  });

  it('a run loses what friction and fittings of its own air take at its own velocity', () => {
    const hot = solve(smallHouse, { main: { supplyTemperature_C: 55, returnTemperature_C: 24 } });
    const run = smallHouse.systems[0]!.parts.find((part) => part.id === 'run-hall')!;
    const index = hot.elements.findIndex((element) => element.kind === 'duct' && element.of === 'run-hall');
    const { from, to } = hot.elements[index]!;
    const density_kgm3 = siteDensity(smallHouse, 55);
    const flow_m3s = (hot.solution.flow_m3s[index]! * hot.referenceDensity_kgm3) / density_kgm3;
    const reference = referenceAir(smallHouse, 'cooling');
    // Viscosity is kept at that of the room.
    const kinematicViscosity_m2s =
      (reference.kinematicViscosity_m2s * reference.reference_kgm3) / density_kgm3;
    const friction = ductFriction(run.section, run.roughness_m, flow_m3s, {
      density_kgm3,
      kinematicViscosity_m2s,
    });
    const loss_Pa =
      friction.loss_Pam * run.length_m * flexSlackFactor(run.slack, 0.102) +
      0.8 * friction.velocityPressure_Pa;
    expect(hot.solution.pressure_Pa[from]! - hot.solution.pressure_Pa[to]!).toBeCloseTo(loss_Pa, 6);
  });

  it('asks for the temperatures of every system', () => {
    expect(() => solveAir(smallHouse, 'cooling', {})).toThrow(RangeError);
  });
});
