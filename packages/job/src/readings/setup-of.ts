import type { TestSetup } from '@airledger/engine/readings/types';
import type { JobReading } from '../schema/reading-schema.ts';
import { instrumentOf, kindRow } from './reading-tables.ts';
import { typedValue } from './reading-values.ts';

/** How house and ducts stood for a reading, with what is usual for its kind where the sheet is silent. */
export const setupOf = (reading: JobReading): TestSetup => {
  const { usual } = kindRow(reading.kind);
  const typed = reading.setup ?? {};
  const duct = typedValue(typed.ductPressure ?? usual.ductPressure, 'pressure')?.value;
  const house = typedValue(typed.housePressure ?? usual.housePressure, 'pressure')?.value;
  return {
    fan: typed.fan ?? instrumentOf(reading).fan ?? usual.fan,
    doors: typed.doors ?? usual.doors,
    registers: typed.registers ?? usual.registers,
    ...(typed.except && typed.except.length > 0 && { except: typed.except }),
    filter: typed.filter ?? usual.filter,
    side: typed.side ?? usual.side,
    ...held(reading, duct, house),
  };
};

/** Leakage to outdoors is read with the ducts at the pressure of the house, so that nothing passes between the two. */
const held = (
  { kind, to }: JobReading,
  duct: number | undefined,
  house: number | undefined,
): Pick<TestSetup, 'ductPressure_Pa' | 'housePressure_Pa'> => {
  if (kind === 'duct leakage' && to === 'outdoors')
    return { ductPressure_Pa: 0, housePressure_Pa: house ?? duct ?? 0 };
  return {
    ...(duct !== undefined && { ductPressure_Pa: duct }),
    ...(house !== undefined && { housePressure_Pa: house }),
  };
};
