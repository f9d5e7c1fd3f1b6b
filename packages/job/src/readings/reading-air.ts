import type { Mode, Survey } from '@airledger/engine';
import { siteDensity } from '@airledger/engine/air/air-density';
import { instrumentFlow } from '@airledger/engine/readings/instrument-flow';
import type { TestSetup } from '@airledger/engine/readings/types';
import type { JobReading } from '../schema/reading-schema.ts';
import { instrumentOf } from './reading-tables.ts';
import { typedValue } from './reading-values.ts';

/** The air that flows of a reading are counted in, and how its instrument's flow comes to it. */
export const readingAir = (
  reading: JobReading,
  { fan }: TestSetup,
  survey: Survey,
): { readonly density_kgm3: number; readonly actual: (shown_m3s: number) => number } => {
  const mode: Mode = fan === 'heating' ? 'heating' : 'cooling';
  const room_C = survey.indoor[`${mode}_C`];
  const density_kgm3 = siteDensity(survey, room_C);
  const air_kgm3 = siteDensity(survey, typedValue(reading.instrumentAir, 'temperature')?.value ?? room_C);
  const shows = instrumentOf(reading).flow ?? 'as shown';
  return {
    density_kgm3,
    actual: (shown_m3s) => instrumentFlow(shown_m3s, shows, air_kgm3, density_kgm3),
  };
};
