import factors from '../../data/load-factors.json' with { type: 'json' };
import type { Surface } from '../survey/types.ts';
import { peakIrradiance } from './peak-irradiance.ts';

const { compass, fenestrationFactor, horizontalFenestrationFactor, shadeLineFactor, shadeLineLatitudes_deg } =
  factors.window;

/** Straight-line value between the eight compass points. */
const atCompass = (values: (point: number) => number, facing_deg: number): number => {
  const turn = (((facing_deg % 360) + 360) % 360) / 45;
  const low = Math.floor(turn) % compass.length;
  const share = turn - Math.floor(turn);
  return (1 - share) * values(low) + share * values((low + 1) % compass.length);
};

/** Share of the peak solar gain that is load in the design hour. */
export const fenestrationFactorAt = (facing_deg?: number): number =>
  facing_deg === undefined
    ? horizontalFenestrationFactor
    : atCompass((point) => fenestrationFactor[point]!, facing_deg);

/** Depth of shade per depth of overhang, latitude 20–50 °N (beyond it the nearest). */
export const shadeLineFactorAt = (latitude_deg: number, facing_deg: number): number => {
  const last = shadeLineLatitudes_deg.length - 1;
  const place = Math.min(last, Math.max(0, (latitude_deg - shadeLineLatitudes_deg[0]!) / 5));
  const low = Math.min(last - 1, Math.floor(place));
  const share = place - low;
  // The table is symmetric: N, NE/NW, E/W, SE/SW, S.
  const row = (point: number): number => {
    const values = shadeLineFactor[Math.min(point, compass.length - point)]!;
    return (1 - share) * values[low]! + share * values[low + 1]!;
  };
  return atCompass(row, facing_deg);
};

/** Sun through one window. */
export type WindowSun = {
  /** Peak irradiance that reaches the glass, W/m². */
  readonly irradiance: number;
  readonly shadedShare: number;
  readonly fenestrationFactor: number;
  /** Cooling load of the sun, W/m² of window. */
  readonly gain: number;
};

/**
 * Sun through a window or skylight in the cooling design hour: PXI·SHGC·IAC·FF with
 * PXI = T_x·(E_d + (1 − F_shd)·E_D) and F_shd = (SLF·D_oh − X_oh)/h within 0…1.
 * ASHRAE Handbook—Fundamentals 2021 ch. 17, detached houses, July. A shaded window sees no beam.
 */
export const windowSun = (surface: Surface, latitude_deg: number): WindowSun => {
  const { glass, facing_deg, shaded } = surface;
  const factor = fenestrationFactorAt(facing_deg);
  if (!glass) return { irradiance: 0, shadedShare: 0, fenestrationFactor: factor, gain: 0 };
  const { diffuse, beam } = peakIrradiance(latitude_deg, facing_deg);
  const shadeDepth_m =
    facing_deg === undefined
      ? 0
      : shadeLineFactorAt(latitude_deg, facing_deg) * glass.overhangDepth_m - glass.overhangAbove_m;
  const shadedShare = shaded ? 1 : Math.min(1, Math.max(0, shadeDepth_m / glass.height_m));
  const irradiance = glass.screen * (diffuse + (1 - shadedShare) * beam);
  return {
    irradiance,
    shadedShare,
    fenestrationFactor: factor,
    gain: irradiance * glass.solarHeatGain * glass.shadeFactor * factor,
  };
};
