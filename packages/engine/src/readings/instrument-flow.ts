import { standardDensity_kgm3 } from '../ducts/leakage-law.ts';

/**
 * Airflow at a reference density (m³/s, mass over that density) of what a flow instrument shows.
 * Instruments with an orifice or a pressure grid turn Δp into the flow of standard air: air of density ρ really moves
 * at Q·√(ρs/ρ), which is Q·√(ρs·ρ) in mass (orifice law). Others show the volume that moves: Q·ρ in mass.
 * @param shown_m3s as the instrument shows it
 * @param air_kgm3 density of the air that goes through it, 0.6 to 1.6 kg/m³
 */
export const instrumentFlow = (
  shown_m3s: number,
  shows: 'standard air' | 'as shown',
  air_kgm3: number,
  reference_kgm3: number,
): number =>
  shown_m3s *
  (shows === 'standard air'
    ? Math.sqrt(standardDensity_kgm3 * air_kgm3) / reference_kgm3
    : air_kgm3 / reference_kgm3);
