import type { Section } from '../survey/types.ts';

/** Area, perimeter and hydraulic diameter of a section. */
export type SectionGeometry = {
  readonly area_m2: number;
  readonly perimeter_m: number;
  /** 4·area/perimeter: what friction is computed with, at the true mean velocity. */
  readonly hydraulicDiameter_m: number;
};

/**
 * Area, perimeter and hydraulic diameter of a duct section. Sizes > 0; a flat oval has major ≥ minor.
 * Flat oval: a rectangle between two half circles.
 */
export function sectionGeometry(section: Section): SectionGeometry {
  const [area_m2, perimeter_m] = areaAndPerimeter(section);
  return { area_m2, perimeter_m, hydraulicDiameter_m: (4 * area_m2) / perimeter_m };
}

function areaAndPerimeter(section: Section): [area_m2: number, perimeter_m: number] {
  switch (section.shape) {
    case 'round':
      return [(Math.PI * section.diameter_m ** 2) / 4, Math.PI * section.diameter_m];
    case 'rectangular':
      return [section.width_m * section.height_m, 2 * (section.width_m + section.height_m)];
    case 'oval': {
      const flat_m = section.major_m - section.minor_m;
      const area_m2 = (Math.PI * section.minor_m ** 2) / 4 + section.minor_m * flat_m;
      return [area_m2, Math.PI * section.minor_m + 2 * flat_m];
    }
  }
}

/**
 * Diameter of the round duct with the same friction loss at the same flow, m.
 * Rectangular: Huebscher 1948; flat oval: Heyt & Diaz 1975
 * (both in ASHRAE Handbook—Fundamentals 2021 ch. 21). For sizing only: losses use the hydraulic diameter.
 */
export function equivalentDiameter_m(section: Section): number {
  switch (section.shape) {
    case 'round':
      return section.diameter_m;
    case 'rectangular': {
      const { width_m, height_m } = section;
      return (1.3 * (width_m * height_m) ** 0.625) / (width_m + height_m) ** 0.25;
    }
    case 'oval': {
      const { area_m2, perimeter_m } = sectionGeometry(section);
      return (1.55 * area_m2 ** 0.625) / perimeter_m ** 0.25;
    }
  }
}
