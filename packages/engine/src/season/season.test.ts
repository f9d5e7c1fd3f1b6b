import { account, type DuctPart, type Survey } from '@airledger/engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { greensboroYear } from '../../../../tests/fixtures/greensboro-year.ts';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { varyHouse } from '../../../../tests/fixtures/vary-house.ts';
import { coolingOutput } from '../equipment/cooling-output.ts';
import { balanceOver, gain } from '../heat/balance.ts';
import { modelHouse } from '../heat/house-model.ts';
import { computeLoads } from '../loads/compute-loads.ts';
import { modes } from '../survey/types.ts';
import { coolingEquipment } from './equipment-hour.ts';
import { fanState } from './fan-state.ts';
import { season } from './season.ts';
import { shortYear } from './short-year.ts';
import type { Season, SeasonHour } from './types.ts';

const short = shortYear(greensboroYear, { days: 6 });
const run = (survey: Survey): Season => season(survey, short);
const spent = ({ energy }: Season): number =>
  energy.heating_J + energy.supplementary_J + energy.cooling_J + energy.fan_J;

const withParts = (survey: Survey, change: (part: DuctPart) => DuctPart): Survey => ({
  ...survey,
  systems: survey.systems.map((system) => ({ ...system, parts: system.parts.map(change) })),
});
const insulated = (r: number) => withParts(smallHouse, (part) => ({ ...part, insulation_m2KW: r }));
const leaking = (factor: number) =>
  withParts(smallHouse, (part) => ({
    ...part,
    leaks: part.leaks.map((leak) => ({ ...leak, flow25_m3s: leak.flow25_m3s * factor })),
  }));
const setTo = (heating_C: number, cooling_C: number): Survey => ({
  ...smallHouse,
  indoor: { ...smallHouse.indoor, heating_C, cooling_C },
});

describe('an hour', () => {
  it('closes to 1e-6 of the heat that passed, in every kind of house', () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          leak: unit,
          slack: unit,
          insulation: unit,
          outdoor: unit,
          capacity: unit,
          doorsOpen: fc.boolean(),
          fanRunning: fc.constant(true),
          registerOpen: unit,
          twoSystems: fc.boolean(),
          ventilated: fc.boolean(),
          bypass: fc.boolean(),
        }),
        (variation) => {
          const hours: SeasonHour[] = [];
          season(varyHouse(variation), short, { onHour: (hour) => hours.push(hour) });
          for (const { residual_W, throughput_W } of hours)
            expect(Math.abs(residual_W)).toBeLessThanOrEqual(1e-6 * Math.max(1, throughput_W));
        },
      ),
      { numRuns: 12 },
    );
  });

  it('uses the very rows of the heat balance: the full model at the hour’s own temperatures says the same', () => {
    for (const mode of modes) {
      const state = fanState(smallHouse, mode);
      const loads = computeLoads(smallHouse, mode);
      const places = [...smallHouse.rooms, ...smallHouse.zones];
      const none = { attic: { exchanges: [], ventilation_kgs: 0, sunGain_W: 0 } };
      for (const outdoor_C of [-17, 3, 21, 38]) {
        const outdoor = { ...loads.outdoor, temperature_C: outdoor_C };
        const house = modelHouse(smallHouse, mode, { ...loads, lines: [], outdoor }, none, state.air);
        const temperature = Float64Array.from(places, (_, i) => outdoor_C + 2 * i);
        const n = places.length;
        const output_W = mode === 'heating' ? 7000 : -6000;
        places.forEach((_, row) => {
          const ducts =
            gain(balanceOver(house.sensible, 1), row, [output_W], temperature) -
            gain(balanceOver(house.sensible, 0), row, [output_W], temperature);
          const at = state.heat.subarray(row * state.width, (row + 1) * state.width);
          let sum = at[n]! * outdoor_C + at[n + 1]! + at[n + 2]! * output_W;
          temperature.forEach((value, k) => {
            sum += at[k]! * value;
          });
          expect(Math.abs(sum - ducts)).toBeLessThan(1e-8 * (1 + Math.abs(ducts)));
        });
      }
    }
  });

  it('delivers on the design day what the account says', () => {
    for (const mode of modes) {
      const { heat, systems } = account(smallHouse, mode);
      const state = fanState(smallHouse, mode);
      const { temperature_C, share, systems: ran } = heat.floating;
      const places = [...smallHouse.rooms, ...smallHouse.zones].map(({ id }) => temperature_C[id]!);
      const outdoor_C =
        mode === 'heating' ? smallHouse.site.heatingDryBulb_C : smallHouse.site.coolingDryBulb_C;
      const row = state.delivered;
      const n = places.length;
      const brought_W =
        share *
        (places.reduce((sum, value, i) => sum + row[i]! * value, 0) +
          row[n]! * outdoor_C +
          row[n + 1]! +
          row[n + 2]! * ran[0]!.output_W);
      const given_W = share * (ran[0]!.output_W + (mode === 'heating' ? state.fan_W[0]! : 0));
      expect(brought_W / given_W).toBeCloseTo(systems[0]!.deliveryEfficiency, 9);
    }
  });

  it('takes the coil out of its table within 1 % of its own equations', () => {
    const [system] = smallHouse.systems;
    const equipment = coolingEquipment(system!, { cop: 4, degradation: 0.15 }, 0.55, 101_325);
    const out = { sensible_W: 0, latent_W: 0, supplementary_W: 0, input_W: 0 };
    for (let k = 0; k < 60; k++) {
      const entering = { temperature_C: 21.3 + (k % 7) * 1.31, humidityRatio: 0.0063 + (k % 5) * 0.00137 };
      const outdoor_C = 20.7 + (k % 11) * 1.73;
      equipment(entering.temperature_C, entering.humidityRatio, outdoor_C, out);
      const exact = coolingOutput(system!.equipment, entering, 0.55, outdoor_C, 101_325);
      expect(Math.abs(-out.sensible_W - exact.sensible_W)).toBeLessThan(0.01 * exact.total_W);
      expect(Math.abs(out.sensible_W - out.latent_W + exact.total_W)).toBeLessThan(0.01 * exact.total_W);
    }
  });
});

describe('a year', () => {
  it('uses less the better its ducts are insulated', () => {
    const uses = [0.2, 0.5, 1, 1.5, 2].map((r) => spent(run(insulated(r))));
    uses.slice(1).forEach((use, k) => {
      expect(use).toBeLessThan(uses[k]!);
    });
  });

  it('uses more the more its ducts leak', () => {
    const uses = [0, 0.5, 1, 2].map((factor) => spent(run(leaking(factor))));
    uses.slice(1).forEach((use, k) => {
      expect(use).toBeGreaterThan(uses[k]!);
    });
  });

  it('uses more for a warmer winter and for a cooler summer indoors', () => {
    const heats = [18, 20, 22].map((set) => run(setTo(set, 26)).energy.heatGiven_J);
    const cools = [27, 25, 23].map((set) => run(setTo(18, set)).energy.coolingGiven_J);
    for (const uses of [heats, cools])
      uses.slice(1).forEach((use, k) => {
        expect(use).toBeGreaterThan(uses[k]!);
      });
  });

  it('lets the house float between the set points, and holds its thermostat within capacity', () => {
    const hall = smallHouse.rooms.findIndex(({ id }) => id === 'hall');
    const seen = new Set<string>();
    season(smallHouse, short, {
      onHour: ({ mode, temperature_C, share }) => {
        seen.add(mode);
        const at_C = temperature_C[hall]!;
        if (mode === 'heating' && share < 0.99) expect(at_C).toBeCloseTo(smallHouse.indoor.heating_C, 3);
        if (mode === 'cooling' && share < 0.99) expect(at_C).toBeCloseTo(smallHouse.indoor.cooling_C, 3);
        if (mode === 'off') {
          expect(at_C).toBeGreaterThan(smallHouse.indoor.heating_C - 1e-6);
          expect(at_C).toBeLessThan(smallHouse.indoor.cooling_C + 1e-6);
        }
      },
    });
    expect([...seen].toSorted()).toEqual(['cooling', 'heating', 'off']);
  });

  it('follows a setback, and saves by it', () => {
    const usual = { heating_C: Array(24).fill(21), cooling_C: Array(24).fill(24) };
    const night = usual.heating_C.map((value, hour) => (hour >= 22 || hour < 6 ? 17 : value));
    const at = (heating_C: number[]): Survey => ({
      ...smallHouse,
      season: { thermostat: { ...usual, heating_C }, equipment: {}, tariffs: {} },
    });
    expect(run(at(night)).energy.heatGiven_J).toBeLessThan(run(at(usual.heating_C)).energy.heatGiven_J);
  });

  it('adds up: fuels by use, months and cost', () => {
    const found = run(smallHouse);
    const byFuel = found.byFuel.reduce((sum, { energy_J }) => sum + energy_J, 0);
    expect(byFuel / spent(found)).toBeCloseTo(1, 9);
    const byMonth = found.months.reduce((sum, month) => sum + month.cost, 0);
    expect(byMonth / found.cost).toBeCloseTo(1, 9);
    expect(found.hours).toBeCloseTo(8760, 3);
  });
});

describe('a short year', () => {
  it('made for a house comes to its full year, and stays within 3 % of a full year after repairs', () => {
    const like = shortYear(greensboroYear, { like: smallHouse });
    expect(like.days).toHaveLength(12);
    const compare = (survey: Survey, tolerance: number) => {
      const full = season(survey, greensboroYear);
      const found = season(survey, like);
      for (const key of ['heatGiven_J', 'coolingGiven_J'] as const)
        expect(Math.abs(found.energy[key] / full.energy[key] - 1)).toBeLessThan(tolerance);
      expect(Math.abs(found.cost / full.cost - 1)).toBeLessThan(tolerance);
    };
    compare(smallHouse, 0.005);
    compare(leaking(0.2), 0.03);
  }, 60_000);

  it('keeps the days of the year and its degree-hours', () => {
    const twelve = shortYear(greensboroYear);
    expect(twelve.days.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(365, 3);
    const degreeHours = (day: number) =>
      greensboroYear.dryBulb_C
        .subarray(day * 24, day * 24 + 24)
        .reduce((sum, value) => sum + Math.max(0, 17 - value), 0);
    const full = Array.from({ length: 365 }, (_, day) => degreeHours(day)).reduce((a, b) => a + b, 0);
    const kept = twelve.days.reduce((sum, { day, weight }) => sum + weight * degreeHours(day), 0);
    expect(Math.abs(kept / full - 1)).toBeLessThan(0.01);
  });
});
