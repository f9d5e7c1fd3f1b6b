import type { AirConditions } from '../air/air-density.ts';
import { heatingOutput } from '../equipment/heating-output.ts';
import type { Loads } from '../loads/types.ts';
import { specificHeat } from '../psychrometrics/air-properties.ts';
import type { Mode, Survey } from '../survey/types.ts';

/**
 * Temperatures that set the density of the air in ducts: design output over design airflow.
 * Fixed by the survey, not by the solution, so that the account has no memory; 5 K here move a flow by under 1 %.
 */
export function airTemperatures(survey: Survey, mode: Mode, loads: Loads): AirConditions {
  return Object.fromEntries(
    survey.systems.map((system) => {
      const cooling_W =
        (system.equipment.cooling?.total_W ?? 0) * (system.equipment.cooling?.sensibleHeatRatio ?? 0);
      const output_W =
        mode === 'heating'
          ? heatingOutput(system.equipment, survey.site.heatingDryBulb_C).output_W
          : -cooling_W;
      const rate =
        system.designAirflow_m3s[mode] * loads.indoor.density_kgm3 * specificHeat(loads.indoor.humidityRatio);
      const returnTemperature_C = loads.indoor.temperature_C;
      return [system.id, { supplyTemperature_C: returnTemperature_C + output_W / rate, returnTemperature_C }];
    }),
  );
}
