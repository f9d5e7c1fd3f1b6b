import { ductFilms, outsideFilm_Wm2K, wrapConductivity_WmK } from '../ducts/duct-insulation.ts';
import { equivalentDiameter_m } from '../ducts/section-geometry.ts';
import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { dewPoint } from '../psychrometrics/wet-bulb.ts';
import type { DuctPart, Survey } from '../survey/types.ts';
import type { FanState } from './fan-state.ts';
import type { CondensationHours } from './types.ts';

/** A surface that may sweat: its temperature lies between the air around it and the air within. */
type Surface = {
  readonly what: CondensationHours['what'];
  readonly system: string;
  readonly part: DuctPart;
  readonly row: Float64Array;
  readonly around: number;
  /** Part of the way from the air around to the air within at which the surface stands. */
  readonly depth: number;
  hours: number;
};

/**
 * Jackets of supply ducts against the air of their zone (at their first and coldest air), and boots, bare metal as they
 * show in the room, against the air of the room. ASHRAE Handbook—Fundamentals 2021 ch. 23.
 */
export class DuctSurfaces {
  private readonly surfaces: readonly Surface[];
  private readonly pressure_Pa: number;
  /** Places around the surfaces, and the dew point of each. */
  private readonly around: readonly number[];
  private readonly dew_C: Float64Array;

  constructor(survey: Survey, state: FanState, places: readonly string[]) {
    this.pressure_Pa = standardPressure_Pa(survey.site.elevation_m);
    this.dew_C = new Float64Array(places.length);
    const find = (system: string, part: string) =>
      survey.systems.find(({ id }) => id === system)?.parts.find(({ id }) => id === part);
    const surface = (
      what: Surface['what'],
      { system, part: id, row }: FanState['parts'][number],
      aroundOf: (part: DuctPart) => string | undefined,
      depthOf: (part: DuctPart) => number,
    ): Surface[] => {
      const part = find(system, id);
      const around = part ? places.indexOf(aroundOf(part) ?? '') : -1;
      if (!part || around < 0) return [];
      return [{ what, system, part, row, around, depth: depthOf(part), hours: 0 }];
    };
    this.surfaces = [
      ...state.parts.flatMap((part) => surface('duct', part, ({ zone }) => zone, jacketDepth)),
      ...state.registers.flatMap((register) =>
        surface('boot', register, ({ terminal }) => terminal?.room, bareDepth),
      ),
    ];
    // The first room stands for all, since rooms share one moisture.
    this.around = [...new Set([0, ...this.surfaces.map(({ around }) => around)])];
  }

  /** Counts the running part of one hour of cooling. */
  count(
    share_h: number,
    outdoor_C: number,
    temperature_C: Float64Array,
    humidityRatio: Float64Array,
    outputWhileOn_W: readonly number[],
  ): void {
    const { surfaces, dew_C, pressure_Pa } = this;
    const n = temperature_C.length;
    for (const place of this.around) {
      const same = humidityRatio[place] === humidityRatio[0] && place > 0;
      dew_C[place] = same ? dew_C[0]! : dewPoint(humidityRatio[place]!, pressure_Pa);
    }
    for (const surface of surfaces) {
      const { row, around, depth } = surface;
      let within_C = row[n]! * outdoor_C + row[n + 1]!;
      for (let i = 0; i < n; i++) within_C += row[i]! * temperature_C[i]!;
      for (let s = 0; s < outputWhileOn_W.length; s++) within_C += row[n + 2 + s]! * outputWhileOn_W[s]!;
      const around_C = temperature_C[around]!;
      const surface_C = around_C + depth * (within_C - around_C);
      if (surface_C < dew_C[around]!) surface.hours += share_h;
    }
  }

  /** Hours of each surface so far; a part with several pieces or registers counts its worst. */
  hours(): CondensationHours[] {
    const worst = new Map<string, CondensationHours>();
    for (const { what, system, part, hours } of this.surfaces) {
      const key = `${what}/${system}/${part.id}`;
      const before = worst.get(key);
      if (!before || before.hours < hours)
        worst.set(key, { system, part: part.id, name: nameOf(what, part), what, hours });
    }
    return [...worst.values()];
  }
}

const nameOf = (what: Surface['what'], part: DuctPart): string =>
  what === 'boot' ? (part.terminal?.name ?? part.name) : part.name;

/** Film outside over film and insulation; the label counts at the outside of round duct. */
const jacketDepth = (part: DuctPart): number => {
  const size_m = equivalentDiameter_m(part.section);
  const thickness_m = wrapConductivity_WmK * part.insulation_m2KW;
  const film_Wm2K = outsideFilm_Wm2K(part.jacketEmittance, size_m + 2 * thickness_m);
  const outer_m = size_m / 2 + thickness_m;
  const insulation =
    part.section.shape === 'rectangular'
      ? part.insulation_m2KW
      : (outer_m * Math.log((2 * outer_m) / size_m)) / wrapConductivity_WmK;
  return 1 / film_Wm2K / (1 / film_Wm2K + insulation);
};

/** Speed in a usual run, m/s, and emittance of a painted register, for the films of the bare boot (common practice, no source). */
const usualSpeed_ms = 3;
const paintedEmittance = 0.9;

/** Bare metal between the film within and the film in the room. */
const bareDepth = ({ section }: DuctPart): number => {
  const films = ductFilms({ section, insulation_m2KW: 0 }, paintedEmittance, usualSpeed_ms);
  return films.inside_Wm2K / (films.inside_Wm2K + films.outside_Wm2K);
};
