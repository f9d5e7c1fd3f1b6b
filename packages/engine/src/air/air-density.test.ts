import { describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { standardDensity_kgm3 } from '../ducts/leakage-law.ts';
import { fanLaw, leakLaw, pressureDropLaw, referenceAir } from './air-density.ts';

const standard = { reference_kgm3: standardDensity_kgm3, kinematicViscosity_m2s: 1.5e-5 };
const thin = { reference_kgm3: 0.9, kinematicViscosity_m2s: 2e-5 };
const { fan } = smallHouse.systems[0]!.airHandler;

describe('laws of air that is not standard', () => {
  it('are the tested ones in standard air', () => {
    const drop = { drop_Pa: 50, flow_m3s: 0.5, exponent: 1.8 };
    expect(pressureDropLaw(drop, standard).resistance * 0.5 ** 1.8).toBeCloseTo(50, 10);
    expect(leakLaw(0.002, 0.6, standard).coefficient).toBeCloseTo(0.002, 12);
    expect(fanLaw(fan, 'cooling', standard).table).toEqual(fan.tables.cooling);
  });

  it('a hole passes volume as 1/√ρ, a fine crack whatever the density', () => {
    expect(leakLaw(0.002, 0.5, thin).coefficient).toBeCloseTo(
      0.002 * Math.sqrt(standardDensity_kgm3 / 0.9),
      12,
    );
    expect(leakLaw(0.002, 1, thin).coefficient).toBeCloseTo(0.002, 12);
  });

  it('a dynamic loss goes with density, a viscous one does not', () => {
    const resistance = (exponent: number, air: typeof thin) =>
      pressureDropLaw({ drop_Pa: 40, flow_m3s: 0.5, exponent }, air).resistance;
    expect(resistance(2, thin) / resistance(2, standard)).toBeCloseTo(0.9 / standardDensity_kgm3, 12);
    expect(resistance(1, thin)).toBeCloseTo(resistance(1, standard), 12);
  });

  it('a held flow is room air, whatever its temperature in the fan', () => {
    const held = { ...fan, constantFlow_m3s: { heating: 0.4, cooling: 0.5 } };
    expect(fanLaw(held, 'heating', thin).control!.flow_m3s).toBe(0.4);
    expect(fanLaw(fan, 'heating', thin).control).toBeUndefined();
  });

  // ASHRAE Handbook—Fundamentals 2021 ch. 21 takes 0.978 kg/m³ at Denver, 1655 m.
  it('knows the air of Denver', () => {
    const denver = { ...smallHouse, site: { ...smallHouse.site, elevation_m: 1655 } };
    expect(Math.abs(referenceAir(denver, 'heating').reference_kgm3 / 0.978 - 1)).toBeLessThan(0.01);
  });
});
