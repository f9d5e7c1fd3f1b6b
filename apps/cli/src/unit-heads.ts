import { displayUnit, type UnitSystem } from '@airledger/engine';

/** Units for column heads. */
export const unitHeads = (units: UnitSystem) => ({
  air: displayUnit('airflow', units),
  heat: displayUnit('power', units),
  temperature: displayUnit('temperature', units),
  pressure: displayUnit('pressure', units),
});
