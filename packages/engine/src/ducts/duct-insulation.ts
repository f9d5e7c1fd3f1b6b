import type { Section } from '../survey/types.ts';
import { sectionGeometry } from './section-geometry.ts';

/**
 * Conductivity of duct wrap and flex insulation as installed, W/(m·K): 0.357 Btu·in/(h·ft²·°F), with which
 * Palmiter & Kruse (ACEEE) give true resistances of round ducts; it also fits the usual thickness of.
 */
export const wrapConductivity_WmK = 0.357 * 0.144228;

/** What decides the heat that passes through the wall of a duct. */
export type InsulatedDuct = {
  readonly section: Section;
  /** Labelled, flat-slab, without films; 0 for bare. */
  readonly insulation_m2KW: number;
  readonly conductivity_WmK?: number;
};

/** Surface coefficients of a duct wall. */
export type Films = { readonly inside_Wm2K: number; readonly outside_Wm2K: number };

/**
 * Heat conductance of insulated duct per length from its air to its surroundings, W/(m·K).
 * The label is for a flat slab (ASHRAE Handbook—Fundamentals 2021 ch. 23): it gives the thickness t = k·R, which is
 * then wrapped around the section, so round duct conducts more than label over inside area.
 * Circle: 2πk/ln(1 + 2t/D); flat sides: k/t; each corner: shape factor 0.54 (Incropera, conduction shape factors).
 */
export function ductConductance_WmK(duct: InsulatedDuct, films: Films): number {
  const { perimeter_m } = sectionGeometry(duct.section);
  const thickness_m = insulationThickness_m(duct);
  const wall = thickness_m > 0 ? 1 / wallConductance_WmK(duct, thickness_m) : 0;
  const inside = 1 / (films.inside_Wm2K * perimeter_m);
  const outside = 1 / (films.outside_Wm2K * outerPerimeter_m(duct.section, thickness_m));
  return 1 / (inside + wall + outside);
}

/** Thickness of insulation that its label stands for, m. */
export const insulationThickness_m = (duct: InsulatedDuct): number =>
  duct.insulation_m2KW * (duct.conductivity_WmK ?? wrapConductivity_WmK);

/** Conductance of the insulation alone, per length, W/(m·K). */
export function wallConductance_WmK(duct: InsulatedDuct, thickness_m: number): number {
  const conductivity = duct.conductivity_WmK ?? wrapConductivity_WmK;
  const circle = (diameter_m: number) => (2 * Math.PI) / Math.log(1 + (2 * thickness_m) / diameter_m);
  switch (duct.section.shape) {
    case 'round':
      return conductivity * circle(duct.section.diameter_m);
    case 'rectangular': {
      const sides_m = 2 * (duct.section.width_m + duct.section.height_m);
      return conductivity * (sides_m / thickness_m + 4 * 0.54);
    }
    case 'oval': {
      const flats_m = 2 * (duct.section.major_m - duct.section.minor_m);
      return conductivity * (flats_m / thickness_m + circle(duct.section.minor_m));
    }
  }
}

/** Outside perimeter: rounded parts grow by 2π·t, square corners by 8·t. */
const outerPerimeter_m = (section: Section, thickness_m: number): number =>
  sectionGeometry(section).perimeter_m + (section.shape === 'rectangular' ? 8 : 2 * Math.PI) * thickness_m;

const stefanBoltzmann = 5.670374e-8;
/** Air at room temperature: conductivity, kinematic viscosity, Prandtl number. */
const air = { conductivity_WmK: 0.0257, viscosity_m2s: 1.51e-5, prandtl: 0.71 };
/** Free convection keeps some exchange in a duct without flow (common practice, no source). */
const stillInside_Wm2K = 2.5;

/**
 * Film inside a duct, W/(m²·K): Dittus–Boelter, Nu = 0.023·Re^0.8·Pr^0.4, never below that of still air.
 */
function insideFilm_Wm2K(velocity_ms: number, hydraulicDiameter_m: number): number {
  const reynolds = (Math.abs(velocity_ms) * hydraulicDiameter_m) / air.viscosity_m2s;
  const nusselt = 0.023 * reynolds ** 0.8 * air.prandtl ** 0.4;
  return Math.max(stillInside_Wm2K, (nusselt * air.conductivity_WmK) / hydraulicDiameter_m);
}

/**
 * Film outside a duct in still air, W/(m²·K): radiation ε·σ·4T³ (ASHRAE Handbook—Fundamentals 2021 ch. 23) and free
 * convection of a horizontal cylinder 1.32·(ΔT/D)^¼ (from memory), at a surface 10 K from air at 25 °C: the fourth
 * root makes the guess of 10 K harmless.
 * @param size_m outside diameter, or perimeter/π
 */
export const outsideFilm_Wm2K = (emittance: number, size_m: number): number =>
  4 * emittance * stefanBoltzmann * 298.15 ** 3 + 1.32 * (10 / size_m) ** 0.25;

/** Both films of a duct by the models above. */
export function ductFilms(duct: InsulatedDuct, emittance: number, velocity_ms: number): Films {
  const { hydraulicDiameter_m } = sectionGeometry(duct.section);
  const size_m = outerPerimeter_m(duct.section, insulationThickness_m(duct)) / Math.PI;
  return {
    inside_Wm2K: insideFilm_Wm2K(velocity_ms, hydraulicDiameter_m),
    outside_Wm2K: outsideFilm_Wm2K(emittance, size_m),
  };
}
