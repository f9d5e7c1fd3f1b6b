import rows from '../../data/season.json' with { type: 'json' };
import { type Fuel, fuels, type SeasonSurvey, type SystemEfficiency, type Tariff } from '../survey/season.ts';
import type { AirSystem, Survey } from '../survey/types.ts';

const joules_kWh = 3.6e6;
const efficiencyOf = (kind: string): number => rows.efficiency.find((row) => row.kind === kind)!.value;

/** Usual efficiency of a system's kind; a furnace burns natural gas. */
export const usualEfficiency = ({ equipment }: AirSystem): SystemEfficiency => {
  const isHeatPump = equipment.heating?.byOutdoorTemperature ?? false;
  return {
    ...(equipment.heating && {
      heating: isHeatPump
        ? {
            fuel: 'electricity',
            efficiency: efficiencyOf('heat pump, COP at 47 °F'),
            degradation: efficiencyOf('degradation at part load'),
          }
        : { fuel: 'natural gas', efficiency: efficiencyOf('furnace, AFUE'), degradation: 0 },
    }),
    ...(equipment.cooling && {
      cooling: {
        cop: efficiencyOf('cooling, COP at 95 °F'),
        degradation: efficiencyOf('degradation at part load'),
      },
    }),
  };
};

/** Usual price of a fuel, flat. */
export const usualTariff = (fuel: Fuel): Tariff => ({
  standing_perMonth: 0,
  otherUse_J: 0,
  price: { kind: 'flat', price_perJ: rows.price.find((row) => row.fuel === fuel)!.perkWh / joules_kWh },
});

/** CO₂ by fuel, kg per J at the meter. */
export const usualEmission_kgJ = (fuel: Fuel): number =>
  rows.emission.find((row) => row.fuel === fuel)!.kgPerkWh / joules_kWh;

const sameAllDay = (value: number): readonly number[] => Array.from({ length: 24 }, () => value);

/** What the season knows of a survey, with the usual for what it does not say. */
export const seasonSurvey = (survey: Survey): SeasonSurvey => ({
  thermostat: survey.season?.thermostat ?? {
    heating_C: sameAllDay(survey.indoor.heating_C),
    cooling_C: sameAllDay(survey.indoor.cooling_C),
  },
  equipment: Object.fromEntries(
    survey.systems.map((system) => [
      system.id,
      survey.season?.equipment[system.id] ?? usualEfficiency(system),
    ]),
  ),
  tariffs: Object.fromEntries(fuels.map((fuel) => [fuel, survey.season?.tariffs[fuel] ?? usualTariff(fuel)])),
});
