// Seasonal energy against degree-days and an independent hourly model.
import { type Season, type Survey, season, type WeatherYear } from '@airledger/engine';
import { describe, expect, it } from 'vitest';
import { smallHouse } from '../fixtures/small-house.ts';

/** One room of 180 m² that loses 235 W/K to outdoors, gains 500 W, and has equipment at hand with all its ducts inside, so that all that is given arrives. */
const box = (sunFactor_m2: number): Survey => {
  const room = {
    ...smallHouse.rooms[0]!,
    floorArea_m2: 180,
    volume_m3: 450,
    envelopeTo: [],
    envelopeShare: 1,
  };
  const [system] = smallHouse.systems;
  const parts = system!.parts
    .filter(({ id }) => ['supply-plenum', 'return-plenum', 'trunk', 'run-hall', 'return-run'].includes(id))
    .map((part) => ({
      ...part,
      leaks: [],
      zone: 'hall',
      section: { shape: 'round', diameter_m: 0.5 } as const,
      ...(part.terminal && { terminal: { ...part.terminal, room: 'hall', freeArea_m2: 0.2 } }),
    }));
  return {
    ...smallHouse,
    indoor: { ...smallHouse.indoor, heating_C: 20, cooling_C: 24 },
    // The fan needs some way to outdoors to have a pressure; this one lets next to nothing through.
    house: { ...smallHouse.house, leakage50_m3s: 1e-4 },
    rooms: [{ ...room, internalSensible_W: 500, internalLatent_W: 0 }],
    zones: [],
    doors: [],
    surfaces: [
      {
        id: 'wall',
        name: 'wall',
        kind: 'wall',
        inside: 'hall',
        beyond: 'outdoors',
        area_m2: 235,
        u_Wm2K: 1,
        shaded: true,
        sunAbsorptance: 0,
        facing_deg: 0,
      },
      {
        id: 'sun',
        name: 'sun',
        kind: 'skylight',
        inside: 'hall',
        beyond: 'outdoors',
        area_m2: sunFactor_m2,
        u_Wm2K: 0,
        shaded: true,
        glass: {
          // Passed as diffuse, of which 88 % enters.
          solarHeatGain: 1 / 0.88,
          shadeFactor: 1,
          screen: 1,
          height_m: 1,
          overhangDepth_m: 0,
          overhangAbove_m: 0,
        },
      },
    ],
    systems: [
      {
        ...system!,
        thermostatRoom: 'hall',
        equipment: {
          kind: 'furnace with air conditioner',
          heating: { output_W: 20_000, supplementary_W: 0, byOutdoorTemperature: false },
          cooling: { total_W: 12_000, sensibleHeatRatio: 0.8, ratedAirflow_m3s: 0.6 },
        },
        airHandler: {
          ...system!.airHandler,
          zone: 'hall',
          leaks: [],
          fan: { ...system!.airHandler.fan, power_Wsm3: 0 },
        },
        parts,
      },
    ],
  };
};

/** A year given as formulas: T = 12 − 13·cos(2π(d + ½ − 20)/365) − 5·cos(2π(h + ½ − 4)/24); all sun is diffuse. */
const year: WeatherYear = (() => {
  const hours = 8760;
  const days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  const dates = days.flatMap((count, m) => Array.from({ length: count }, (_, d) => [m + 1, d + 1] as const));
  const each = (value: (day: number, hour: number) => number) =>
    Float64Array.from({ length: hours }, (_, n) => value(Math.floor(n / 24), n % 24));
  const sun = each((d, h) =>
    h >= 6 && h < 18
      ? Math.max(
          0,
          (400 + 250 * Math.sin((2 * Math.PI * (d - 80)) / 365)) * Math.sin((Math.PI * (h + 0.5 - 6)) / 12),
        )
      : 0,
  );
  return {
    place: 'formula',
    timeZone_h: 0,
    latitude_deg: 40,
    longitude_deg: 0,
    elevation_m: 0,
    month: Uint8Array.from({ length: hours }, (_, n) => dates[Math.floor(n / 24)]![0]),
    day: Uint8Array.from({ length: hours }, (_, n) => dates[Math.floor(n / 24)]![1]),
    hour: Uint8Array.from({ length: hours }, (_, n) => n % 24),
    dryBulb_C: each(
      (d, h) =>
        12 -
        13 * Math.cos((2 * Math.PI * (d + 0.5 - 20)) / 365) -
        5 * Math.cos((2 * Math.PI * (h + 0.5 - 4)) / 24),
    ),
    dewPoint_C: new Float64Array(hours).fill(-20),
    pressure_Pa: new Float64Array(hours).fill(101_325),
    wind_ms: new Float64Array(hours),
    global_Wm2: sun,
    direct_Wm2: new Float64Array(hours),
    diffuse_Wm2: sun,
  };
})();

const kWh = (joules: number) => joules / 3.6e6;
const run = (sun: number): Season => season(box(sun), year, { mass: 'medium' });

describe('a box of 235 W/K', () => {
  const degreeHours = (base_C: number) =>
    year.dryBulb_C.reduce((sum, value) => sum + Math.max(0, base_C - value), 0);

  it('without sun heats within 15 % of its degree-days: E = UA·HDD(t_in − gain/UA)', () => {
    // Common practice; the balance point is 20 − 500/235 = 17.87 °C.
    const line_kWh = (235 * degreeHours(20 - 500 / 235)) / 1000;
    const found = kWh(run(0).energy.heatGiven_J);
    expect(found / line_kWh).toBeGreaterThan(0.85);
    expect(found / line_kWh).toBeLessThan(1.15);
  });

  it('with sun comes near the simple hourly method of ISO 13790: 13 382 kWh heating, 2195 kWh cooling', () => {
    // ISO 13790:2008 simple hourly method (5R1C), coded twice, same weather, sun 3.0 m² of the horizontal, medium mass.
    // Its air sees 224.7 of the 235 W/K, so its heating reads about 4 % low against ours: accepted +0 to +8 %, and 12 %
    // in cooling, a small difference of large gains.
    const { energy } = run(3);
    expect(kWh(energy.heatGiven_J) / 13_382).toBeGreaterThan(1);
    expect(kWh(energy.heatGiven_J) / 13_382).toBeLessThan(1.08);
    expect(Math.abs(kWh(energy.coolingGiven_J) / 2195 - 1)).toBeLessThan(0.12);
  });
});
