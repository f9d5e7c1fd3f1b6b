import { frictionFactor } from '../network/friction.ts';
import type { Section } from '../survey/types.ts';
import { sectionGeometry } from './section-geometry.ts';

/** Friction of a straight duct at one flow. */
export type DuctFriction = {
  readonly velocity_ms: number;
  readonly velocityPressure_Pa: number;
  readonly reynolds: number;
  readonly frictionFactor: number;
  /** Friction loss per length of straight, fully stretched duct. */
  readonly loss_Pam: number;
};

/**
 * Friction of a straight duct: Darcy–Weisbach with Colebrook
 * (ASHRAE Handbook—Fundamentals 2021 ch. 21), on the hydraulic diameter and the true velocity.
 * @param flow_m3s > 0, at the given density
 */
export function ductFriction(
  section: Section,
  roughness_m: number,
  flow_m3s: number,
  air: { readonly density_kgm3: number; readonly kinematicViscosity_m2s: number },
): DuctFriction {
  const { area_m2, hydraulicDiameter_m } = sectionGeometry(section);
  const velocity_ms = flow_m3s / area_m2;
  const velocityPressure_Pa = (air.density_kgm3 * velocity_ms ** 2) / 2;
  const reynolds = (velocity_ms * hydraulicDiameter_m) / air.kinematicViscosity_m2s;
  const factor = frictionFactor(reynolds, roughness_m / hydraulicDiameter_m);
  return {
    velocity_ms,
    velocityPressure_Pa,
    reynolds,
    frictionFactor: factor,
    loss_Pam: (factor * velocityPressure_Pa) / hydraulicDiameter_m,
  };
}
