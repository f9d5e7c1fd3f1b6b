import { account, type Survey } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import { smallHouse } from './fixtures/small-house.ts';

const main = smallHouse.systems[0]!;
const withEquipment = (
  equipment: Partial<(typeof main)['equipment']>,
  over: Partial<Survey> = {},
): Survey => ({
  ...smallHouse,
  ...over,
  systems: [{ ...main, equipment: { ...main.equipment, ...equipment } }],
});
const cold = { site: { ...smallHouse.site, heatingDryBulb_C: -15 } };

describe('equipment on the design hour', () => {
  test('a heat pump runs alone until it runs all the time, then strips come on in part', () => {
    const mild = account(smallHouse, 'heating').systems[0]!;
    expect(mild.runFraction).toBeLessThan(1);
    expect(mild.supplementaryFraction).toBe(0);
    const bitter = account(withEquipment({}, cold), 'heating').systems[0]!;
    expect(bitter.runFraction).toBe(1);
    expect(bitter.supplementaryFraction).toBeGreaterThan(0);
    expect(bitter.supplementaryFraction).toBeLessThan(1);
    expect(bitter.short).toBe(false);
  });

  test('what ducts lose at the set point hardly depends on the size of the equipment', () => {
    const sized = (total_W: number) =>
      account(withEquipment({ cooling: { ...main.equipment.cooling!, total_W } }), 'cooling').house;
    const [small, large] = [sized(5500), sized(6500)];
    expect(Math.abs(small.forcedLoad_W / large.forcedLoad_W - 1)).toBeLessThan(0.2);
    expect(Math.abs(small.ductLoss_W / large.ductLoss_W - 1)).toBeLessThan(0.2);
  });

  test('no fan runs above all the time, and idle equipment loses nothing', () => {
    const tiny = account(
      withEquipment({ cooling: { ...main.equipment.cooling!, total_W: 2500 } }),
      'cooling',
    );
    expect(tiny.heat.atSetPoint.share).toBe(1);
    const { cooling: _, ...heatingOnly } = main.equipment;
    const none = account({ ...smallHouse, systems: [{ ...main, equipment: heatingOnly }] }, 'cooling');
    expect(none.heat.floating.share).toBe(0);
    expect(none.house.ductLoss_W).toBeCloseTo(0, 9);
    expect(none.house.forcedLoad_W).toBeCloseTo(0, 6);
  });

  test('two systems that share every room share the work', () => {
    const renamed = (id: string) => (id === 'air-handler' ? id : `second-${id}`);
    const second = {
      ...main,
      id: 'second',
      thermostatRoom: 'living',
      airHandler: { ...main.airHandler, id: 'second/air-handler' },
      parts: main.parts.map((part) => ({
        ...part,
        id: renamed(part.id),
        joins: renamed(part.joins),
        ...(part.terminal ? { terminal: { ...part.terminal, id: renamed(part.terminal.id) } } : {}),
      })),
    };
    const { heat } = account({ ...smallHouse, systems: [main, second] }, 'heating');
    const [first, other] = heat.atSetPoint.systems;
    expect(first!.runFraction).toBeGreaterThan(0);
    expect(other!.runFraction).toBeCloseTo(first!.runFraction, 6);
  });

  test('a probe behind the air handler reads its fan and its leaks too', () => {
    const { systems, heat, air } = account(smallHouse, 'cooling');
    const coil = air.elements.findIndex((element) => element.kind === 'coil');
    expect(systems[0]!.leavesAt_C).toBeGreaterThan(heat.floating.leavingTemperature_C[coil]!);
    const still = account(
      {
        ...smallHouse,
        systems: [
          { ...main, airHandler: { ...main.airHandler, fan: { ...main.airHandler.fan, running: false } } },
        ],
      },
      'cooling',
    );
    expect(still.systems[0]!.leavesAt_C).toBe(24);
  });
});
