import vintageRows from '../../data/vintages.json' with { type: 'json' };

/** What a house of its time is usually made of; names from the tables of assemblies. */
export type Vintage = {
  readonly until: number;
  readonly wall: string;
  readonly ceiling: string;
  readonly floor: string;
  readonly window: { readonly warm: string; readonly cold: string };
  readonly door: string;
  readonly slab: string;
  readonly basementWall: string;
  readonly airChanges50: { readonly warm: string; readonly cold: string };
  readonly ductInsulation: string;
  readonly ductLeakage: string;
  readonly motor: string;
  readonly source: string;
};

export const vintageOf = (yearBuilt: number): Vintage =>
  (vintageRows as readonly Vintage[]).find((row) => yearBuilt <= row.until)!;

/** Climate zones 1 and 2 of the energy code are the warm ones. */
export const isWarm = (climateZone: string): boolean => /^[12]/.test(climateZone);
