// What must hold for the loads of any house, whatever the numbers.
import type { Mode, Surface, Survey } from '@airledger/engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeLoads } from '../../packages/engine/src/loads/compute-loads.ts';
import { loadCautions } from '../../packages/engine/src/loads/load-cautions.ts';
import { smallHouse } from '../fixtures/small-house.ts';

const modes: readonly Mode[] = ['heating', 'cooling'];
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const close = (value: number, target: number) =>
  expect(Math.abs(value - target), `${value} against ${target}`).toBeLessThanOrEqual(
    1e-9 * (1 + Math.abs(target)),
  );

const withSite = (site: Partial<Survey['site']>): Survey => ({
  ...smallHouse,
  site: { ...smallHouse.site, ...site },
});
const withSurface = (id: string, change: (surface: Surface) => Surface): Survey => ({
  ...smallHouse,
  surfaces: smallHouse.surfaces.map((surface) => (surface.id === id ? change(surface) : surface)),
});
const lineOf = (survey: Survey, mode: Mode, id: string) =>
  computeLoads(survey, mode)
    .lines.filter((line) => line.of === id)
    .reduce((sum, line) => sum + line.sensible_W, 0);

const anySite = fc.record({
  heatingDryBulb_C: number(-40, 18),
  coolingDryBulb_C: number(25, 45),
  coolingWetBulb_C: number(14, 24),
  dailyRange_K: number(4, 17),
  latitude_deg: number(20, 60),
  elevation_m: number(0, 2500),
});

describe('loads', () => {
  it('rooms add to the house, lines add to rooms, every number is finite, no conductance is negative', () => {
    fc.assert(
      fc.property(anySite, fc.constantFrom(...modes), (site, mode) => {
        const loads = computeLoads(withSite(site), mode);
        const total = loads.rooms.reduce((sum, room) => sum + room.sensible_W, 0);
        close(loads.sensible_W, Math.max(0, total));
        for (const room of loads.rooms)
          close(
            room.sensible_W,
            loads.lines
              .filter((line) => line.room === room.room)
              .reduce((sum, line) => sum + line.sensible_W, 0),
          );
        for (const line of loads.lines) {
          expect(Number.isFinite(line.sensible_W + line.latent_W)).toBe(true);
          expect(line.conductance_WK).toBeGreaterThanOrEqual(0);
          expect(line.formula.length * line.source.length).toBeGreaterThan(0);
        }
      }),
    );
  });

  it('heating is zero at no temperature difference', () => {
    const level = withSite({ heatingDryBulb_C: 21, groundHeating_C: 21 });
    expect(computeLoads(level, 'heating').sensible_W).toBeCloseTo(0, 9);
  });

  it('a heating surface is linear in U, in area and in the temperature difference', () => {
    fc.assert(
      fc.property(number(0.1, 5), number(-30, 15), (factor, outdoor_C) => {
        const survey = withSite({ heatingDryBulb_C: outdoor_C });
        const base = lineOf(survey, 'heating', 'living-wall');
        close(base, 0.5 * 28 * (21 - outdoor_C));
        const scaled = (change: (surface: Surface) => Surface) =>
          lineOf({ ...withSurface('living-wall', change), site: survey.site }, 'heating', 'living-wall');
        close(
          scaled((wall) => ({ ...wall, u_Wm2K: wall.u_Wm2K * factor })),
          base * factor,
        );
        close(
          scaled((wall) => ({ ...wall, area_m2: wall.area_m2 * factor })),
          base * factor,
        );
      }),
    );
  });

  it('cooling is linear in the outdoor temperature, line by line with the line’s own factor', () => {
    const at = (coolingDryBulb_C: number) => lineOf(withSite({ coolingDryBulb_C }), 'cooling', 'living-wall');
    close(at(40) - at(36), 0.5 * 28 * 4);
    const ceiling = (coolingDryBulb_C: number) =>
      lineOf(withSite({ coolingDryBulb_C }), 'cooling', 'bed-1-ceiling');
    close(ceiling(40) - ceiling(36), 0.2 * 20 * 0.62 * 4);
  });

  it('more sun through or on a surface never lowers the cooling load; drapes, screens and shade never raise it', () => {
    fc.assert(
      fc.property(number(0, 1), number(0, 1), number(0, 359), (low, high, facing_deg) => {
        const [less, more] = low < high ? [low, high] : [high, low];
        const load = (change: Partial<NonNullable<Surface['glass']>>, shaded = false) =>
          lineOf(
            withSurface('living-window', (window) => ({
              ...window,
              facing_deg,
              shaded,
              glass: { ...window.glass!, ...change },
            })),
            'cooling',
            'living-window',
          );
        expect(load({ solarHeatGain: more })).toBeGreaterThanOrEqual(load({ solarHeatGain: less }) - 1e-9);
        expect(load({ shadeFactor: more })).toBeGreaterThanOrEqual(load({ shadeFactor: less }) - 1e-9);
        expect(load({ screen: more })).toBeGreaterThanOrEqual(load({ screen: less }) - 1e-9);
        expect(load({}, true)).toBeLessThanOrEqual(load({}) + 1e-9);
        const ceiling = (sunAbsorptance: number) =>
          lineOf(
            withSurface('bed-1-ceiling', (one) => ({ ...one, sunAbsorptance })),
            'cooling',
            'bed-1-ceiling',
          );
        expect(ceiling(more)).toBeGreaterThanOrEqual(ceiling(less) - 1e-9);
      }),
    );
  });

  it('turning the house a full circle changes nothing', () => {
    const turned: Survey = {
      ...smallHouse,
      surfaces: smallHouse.surfaces.map((surface) =>
        surface.facing_deg === undefined ? surface : { ...surface, facing_deg: surface.facing_deg + 360 },
      ),
    };
    close(computeLoads(turned, 'cooling').sensible_W, computeLoads(smallHouse, 'cooling').sensible_W);
  });

  it('a partition carries nothing at equal set points, and ties both its rooms', () => {
    for (const mode of modes) {
      const lines = computeLoads(smallHouse, mode).lines.filter((line) => line.of === 'hall-bed-1');
      expect(lines.map((line) => [line.room, line.beyond])).toEqual([
        ['hall', 'bed-1'],
        ['bed-1', 'hall'],
      ]);
      for (const line of lines) {
        expect(line.sensible_W).toBe(0);
        close(line.conductance_WK, 20);
      }
    }
  });

  it('a surface told from the zone’s side gives the room the same line', () => {
    const flipped = withSurface('bed-1-ceiling', (one) => ({ ...one, inside: 'attic', beyond: 'bed-1' }));
    for (const mode of modes)
      close(lineOf(flipped, mode, 'bed-1-ceiling'), lineOf(smallHouse, mode, 'bed-1-ceiling'));
  });

  it('a zone is no colder and no hotter than all that touches it, without sun', () => {
    fc.assert(
      fc.property(number(-30, 20), (outdoor_C) => {
        const { attic } = computeLoads(
          withSite({ heatingDryBulb_C: outdoor_C }),
          'heating',
        ).zoneWithoutDucts_C;
        expect(attic!).toBeGreaterThanOrEqual(outdoor_C - 1e-9);
        expect(attic!).toBeLessThanOrEqual(21 + 1e-9);
      }),
    );
  });

  it('infiltration counted as mass of indoor air carries the load of its lines', () => {
    for (const mode of modes) {
      const loads = computeLoads(withSite({ elevation_m: 1600 }), mode);
      const conductance = loads.lines
        .filter((line) => line.cause === 'infiltration')
        .reduce((sum, line) => sum + line.conductance_WK, 0);
      const heat_JkgK = 1006 + 1860 * loads.indoor.humidityRatio;
      close(loads.infiltration_m3s * loads.indoor.density_kgm3 * heat_JkgK, conductance);
    }
  });
});

describe('cautions', () => {
  it('name rooms with much glass and places outside the method, in cooling only', () => {
    const glassy = withSurface('bed-1-window', (window) => ({ ...window, area_m2: 5 }));
    const cautions = loadCautions(glassy, computeLoads(glassy, 'cooling'));
    expect(cautions.map((caution) => caution.room)).toContain('bed-1');
    expect(cautions.map((caution) => caution.room)).not.toContain('living');
    expect(loadCautions(glassy, computeLoads(glassy, 'heating'))).toEqual([]);
    const north = withSite({ latitude_deg: 64.8 });
    expect(loadCautions(north, computeLoads(north, 'cooling'))[0]!.text).toContain('64.8°');
    expect(loadCautions(smallHouse, computeLoads(smallHouse, 'cooling'))).toEqual([]);
  });
});
