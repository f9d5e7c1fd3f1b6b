/**
 * Distribution efficiency of a forced-air system, in the form of ASHRAE Standard 152 (from memory).
 * SI: flows m³/s, areas m², resistances m²·K/W, temperatures °C, output W (positive heats, negative cools).
 */
export type DeliverySystem = {
  readonly fanFlow_m3s: number;
  readonly output_W: number;
  readonly supplyArea_m2: number;
  readonly supplyResistance_m2KW: number;
  readonly returnArea_m2: number;
  readonly returnResistance_m2KW: number;
  readonly supplyLeak_m3s: number;
  readonly returnLeak_m3s: number;
  readonly indoor_C: number;
  readonly supplySurroundings_C: number;
  readonly returnSurroundings_C: number;
  readonly density_kgm3: number;
  readonly specificHeat_JkgK: number;
  /** Latent heat that return leaks bring in, J per kg of dry air: enthalpy beyond cp·ΔT; 0 without humidity. */
  readonly leakLatent_Jkg: number;
};

/** Heat that reaches the rooms over heat given to the ducts, and what it stands on. */
export type DeliveryEfficiency = {
  readonly efficiency: number;
  readonly supplyConduction: number;
  readonly returnConduction: number;
  readonly supplyTightness: number;
  readonly returnTightness: number;
  readonly equipmentRise_K: number;
  readonly returnPlenum_C: number;
  readonly supplyPlenum_C: number;
  readonly register_C: number;
};

/**
 * Share of the equipment's output that reaches the rooms: return leak at the grille end, return conduction,
 * equipment, supply conduction at full flow, supply leak at the register end, in this order.
 * a = 1 − leak/fan flow, B = e^(−A/(ρ·Q·cp·R)) for each side;
 * DE = a_s·B_s − a_s·B_s·(1 − a_r·B_r)·Δt_r/Δt_e − a_s·(1 − B_s)·Δt_s/Δt_e, less latent heat drawn in.
 */
export function deliveryEfficiency(of: DeliverySystem): DeliveryEfficiency {
  const capacityFlow = of.fanFlow_m3s * of.density_kgm3 * of.specificHeat_JkgK;
  const supplyTightness = 1 - of.supplyLeak_m3s / of.fanFlow_m3s;
  const returnTightness = 1 - of.returnLeak_m3s / of.fanFlow_m3s;
  const supplyConduction = Math.exp(-of.supplyArea_m2 / (capacityFlow * of.supplyResistance_m2KW));
  const returnConduction = Math.exp(-of.returnArea_m2 / (capacityFlow * of.returnResistance_m2KW));
  const equipmentRise_K = of.output_W / capacityFlow;
  const toReturn_K = of.indoor_C - of.returnSurroundings_C;
  const toSupply_K = of.indoor_C - of.supplySurroundings_C;
  const returnPlenum_C = of.returnSurroundings_C + toReturn_K * returnTightness * returnConduction;
  const supplyPlenum_C = returnPlenum_C + equipmentRise_K;
  const register_C = of.supplySurroundings_C + (supplyPlenum_C - of.supplySurroundings_C) * supplyConduction;
  const latentShare =
    ((1 - returnTightness) * of.leakLatent_Jkg * of.density_kgm3 * of.fanFlow_m3s) / of.output_W;
  const efficiency =
    supplyTightness *
    (supplyConduction -
      (supplyConduction * (1 - returnConduction * returnTightness) * toReturn_K +
        (1 - supplyConduction) * toSupply_K) /
        equipmentRise_K +
      latentShare);
  return {
    efficiency,
    supplyConduction,
    returnConduction,
    supplyTightness,
    returnTightness,
    equipmentRise_K,
    returnPlenum_C,
    supplyPlenum_C,
    register_C,
  };
}

/** Efficiency with the heat that buffer spaces give back: DE + F·(1 − DE), the simple form (from memory). */
export const withRegain = (efficiency: number, regain: number): number =>
  efficiency + regain * (1 - efficiency);
