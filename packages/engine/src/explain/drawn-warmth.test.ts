import { describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { account } from '../account/account.ts';
import type { Equipment, Survey } from '../survey/types.ts';
import { drawnWarmth, fanFlow } from './drawn-warmth.ts';

const withEquipment = (equipment: Equipment): Survey => ({
  ...smallHouse,
  systems: smallHouse.systems.map((system) => ({ ...system, equipment })),
});
const furnace = (output_W: number): Equipment => ({
  kind: 'furnace',
  heating: { output_W, supplementary_W: 0, byOutdoorTemperature: false },
});

describe('how warm air arrives in a house that the readings allow', () => {
  it.each([
    ['that suffices', 60_000, false],
    ['that does not', 1500, true],
  ])(
    'a furnace %s gives the same whatever its fan moves: air is colder as there is more of it',
    (_, output_W, short) => {
      const house = account(withEquipment(furnace(output_W)), 'heating');
      expect(house.heat.floating.systems[0]!.short).toBe(short);
      const probable = fanFlow(house.air, 'main');
      const warmth = drawnWarmth(house, 'main', Float64Array.of(probable, 1.1 * probable));
      expect(warmth(probable)(probable, 0)).toBeCloseTo(1, 12);
      expect(warmth(1.2 * probable)(1.2 * probable, 0)).toBeCloseTo(1 / 1.2, 12);
      // Under a cure the fan is held against what it moves under that cure in the most probable house.
      expect(warmth(1.2 * probable)(1.2 * probable, 1)).toBeCloseTo(1.1 / 1.2, 12);
    },
  );

  it('a cooling coil that does not suffice gives more sensible cooling with more air, less than in proportion', () => {
    const { equipment } = smallHouse.systems[0]!;
    const small = { ...equipment, cooling: { ...equipment.cooling!, total_W: 2000 } };
    const house = account(withEquipment(small), 'cooling');
    expect(house.heat.floating.systems[0]!.short).toBe(true);
    const probable = fanFlow(house.air, 'main');
    const more = 1.2 * probable;
    const gives = 1.2 * drawnWarmth(house, 'main', Float64Array.of(probable))(more)(more, 0);
    expect(gives).toBeGreaterThan(1);
    expect(gives).toBeLessThan(1.2);
  });
});
