// Buffer zones: balances of ASHRAE Handbook—Fundamentals 2021 ch. 17 eq. 5 worked by hand, and attics as measured.
import type { Surface, Survey } from '@airledger/engine';
import { describe, expect, it } from 'vitest';
import { computeLoads } from '../../packages/engine/src/loads/compute-loads.ts';
import { zoneTemperatures } from '../../packages/engine/src/loads/zone-temperatures.ts';
import { type ZoneTerms, zoneTerms } from '../../packages/engine/src/loads/zone-terms.ts';
import { smallHouse } from '../fixtures/small-house.ts';

const specificHeat_JkgK = 1006;
const density_kgm3 = 1.2041;

const zone = (
  conductances: readonly (readonly [to: string, conductance_WK: number])[],
  airChange: number,
  volume_m3: number,
  sunGain_W = 0,
): Record<string, ZoneTerms> => ({
  zone: {
    exchanges: conductances.map(([to, conductance_WK], i) => ({ to, surface: `s${i}`, conductance_WK })),
    ventilation_kgs: (airChange * volume_m3 * density_kgm3) / 3600,
    sunGain_W,
  },
});
const temperature = (
  terms: Record<string, ZoneTerms>,
  outdoor_C: number,
  rooms_C: number,
  ground_C = 0,
  duct_W = 0,
) => zoneTemperatures(terms, { outdoor_C, rooms_C, ground_C, specificHeat_JkgK }, { zone: duct_W }).zone!;

describe('attic of 195.3 m² at 33 °C outdoors, sol-air 72.165 °C', () => {
  const roof = 601.066;
  const excess_K = (0.85 * 850 - 0.9 * 63) / 17;
  const attic = (airChange: number, sun_K = excess_K) =>
    zone(
      [
        ['outdoors', roof],
        ['room', 35.154],
      ],
      airChange,
      292.95,
      roof * sun_K,
    );

  it.each([
    [0, 69.503, 67.146, 0.0553],
    [2, 60.868, 59.068, 0.0422],
    [5, 53.569, 52.241, 0.0311],
    [10, 47.319, 46.394, 0.0217],
  ])('%d air changes', (airChange, alone_C, withDucts_C, regain) => {
    expect(temperature(attic(airChange), 33, 24)).toBeCloseTo(alone_C, 3);
    expect(temperature(attic(airChange), 33, 24, 0, -1500)).toBeCloseTo(withDucts_C, 3);
    // What comes back to the house of each watt: the ceiling's share of the rise that a watt causes.
    const rise = temperature(attic(airChange), 33, 24, 0, 1) - temperature(attic(airChange), 33, 24);
    expect(rise * 35.154).toBeCloseTo(regain, 4);
  });

  it('clear winter night, 2 air changes: −3.711 °C, with 1500 W from ducts −1.912 °C', () => {
    // Sol-air −5.168 °C: outer coefficient 34 W/(m²·K) in winter.
    const sky_K = (-0.9 * 63) / 34;
    expect(temperature(attic(2, sky_K), -3.5, 20)).toBeCloseTo(-3.711, 3);
    expect(temperature(attic(2, sky_K), -3.5, 20, 0, 1500)).toBeCloseTo(-1.912, 3);
  });
});

describe('crawlspace, basement, garage', () => {
  it('vented crawlspace: 6.363 °C, regain .174', () => {
    const crawl = zone(
      [
        ['room', 36],
        ['ground', 60],
      ],
      4.6,
      72,
    );
    expect(Math.abs(temperature(crawl, 0, 20, 10) - 6.363)).toBeLessThan(0.002);
    const rise = temperature(crawl, 0, 20, 10, 1) - temperature(crawl, 0, 20, 10);
    expect(rise * 36).toBeCloseTo(0.174, 3);
  });

  it('basement: 10.019 °C, with 800 W from ducts 15.774 °C, regain .432', () => {
    const basement = zone(
      [
        ['room', 60],
        ['ground', 27],
        ['ground', 19.8],
        ['outdoors', 10],
      ],
      0.3,
      220,
    );
    expect(Math.abs(temperature(basement, -10, 20, 11) - 10.019)).toBeLessThan(0.002);
    expect(Math.abs(temperature(basement, -10, 20, 11, 800) - 15.774)).toBeLessThan(0.003);
    const rise = temperature(basement, -10, 20, 11, 1) - temperature(basement, -10, 20, 11);
    expect(rise * 60).toBeCloseTo(0.432, 3);
  });

  it('garage: −7.007 °C', () => {
    const garage = zone(
      [
        ['room', 18],
        ['outdoors', 95],
        ['outdoors', 22],
      ],
      1,
      135,
    );
    expect(Math.abs(temperature(garage, -10, 20) + 7.007)).toBeLessThan(0.002);
  });

  it('two zones that touch settle together, between the temperatures around them', () => {
    const terms: Record<string, ZoneTerms> = {
      upper: {
        exchanges: [
          { to: 'lower', surface: 'between', conductance_WK: 50 },
          { to: 'outdoors', surface: 'roof', conductance_WK: 100 },
        ],
        ventilation_kgs: 0,
        sunGain_W: 0,
      },
      lower: {
        exchanges: [
          { to: 'upper', surface: 'between', conductance_WK: 50 },
          { to: 'room', surface: 'floor', conductance_WK: 25 },
        ],
        ventilation_kgs: 0,
        sunGain_W: 0,
      },
    };
    const found = zoneTemperatures(terms, { outdoor_C: -10, rooms_C: 20, ground_C: 5, specificHeat_JkgK });
    // In series 100, 50 and 25 W/K carry 30 K: 30/(1/100 + 1/50 + 1/25) = 428.57 W.
    expect(found.upper).toBeCloseTo(-10 + 428.5714 / 100, 4);
    expect(found.lower).toBeCloseTo(20 - 428.5714 / 25, 4);
  });
});

describe('vented attics in peak summer sun (FSEC-CR-1220-00, Florida: dark shingles 22 K above ambient, white roofs near it)', () => {
  // R-19 ceiling, plywood deck, Florida latitude and design day; pitch from 4 to 8 in 12; the usual 5 air changes.
  const attic = (absorptance: number, slope: number, storeyHeight_m: number): number => {
    const ceiling: Surface[] = smallHouse.surfaces.filter((surface) => surface.kind === 'ceiling');
    const roof: Surface = {
      ...smallHouse.surfaces.find((surface) => surface.kind === 'roof')!,
      area_m2: 90 * slope,
      sunAbsorptance: absorptance,
    };
    const survey: Survey = {
      ...smallHouse,
      site: {
        ...smallHouse.site,
        elevation_m: 9,
        latitude_deg: 28,
        coolingDryBulb_C: 33,
        coolingWetBulb_C: 25,
      },
      zones: [
        {
          ...smallHouse.zones[0]!,
          volume_m3: 90 * storeyHeight_m,
          airChange_perHour: { heating: 2, cooling: 5 },
        },
      ],
      surfaces: [...ceiling.map((surface) => ({ ...surface, u_Wm2K: 0.29 })), roof],
    };
    return (computeLoads(survey, 'cooling').zoneWithoutDucts_C.attic! - 33) * 1.8;
  };

  it.each([
    [0.92, 1.05, 1.2],
    [0.92, 1.08, 1.5],
    [0.92, 1.2, 1.8],
    [0.85, 1.08, 1.2],
  ])('dark shingles, absorptance %d, roof %d × floor: +28 to +45 °F', (absorptance, slope, height) => {
    const excess_F = attic(absorptance, slope, height);
    expect(excess_F).toBeGreaterThan(28);
    expect(excess_F).toBeLessThan(45);
  });

  it.each([
    [0.2, 1.05, 1.2],
    [0.23, 1.08, 1.5],
    [0.25, 1.2, 1.8],
  ])('white roofs, absorptance %d, roof %d × floor: −5 to +8 °F', (absorptance, slope, height) => {
    const excess_F = attic(absorptance, slope, height);
    expect(excess_F).toBeGreaterThan(-5);
    expect(excess_F).toBeLessThan(8);
  });
});

describe('zone terms of a survey', () => {
  it('list each exchange once, the air that passes, and no sun in heating', () => {
    const heating = zoneTerms(smallHouse, 'heating').attic!;
    expect(heating.exchanges.map((one) => one.to)).toEqual(['hall', 'living', 'bed-1', 'bed-2', 'outdoors']);
    expect(heating.exchanges.at(-1)!.conductance_WK).toBeCloseTo(284, 9);
    expect(heating.sunGain_W).toBe(0);
    const air = computeLoads(smallHouse, 'heating').outdoor.density_kgm3;
    expect(heating.ventilation_kgs).toBeCloseTo((2 * 110 * air) / 3600, 12);
    expect(zoneTerms(smallHouse, 'cooling').attic!.sunGain_W).toBeGreaterThan(5000);
  });
});
