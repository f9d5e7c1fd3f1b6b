import rows from '../../data/season.json' with { type: 'json' };
import { type Fuel, fuels, type SeasonSurvey, type SystemEfficiency, type Tariff } from '../survey/season.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import { coolingCop, heatingCop } from './rated-efficiency.ts';

/** A usual value with its source: efficiencies as rated, prices per J, emissions in kg per J. */
export type UsualRow = { readonly name: string; readonly value: number; readonly source: string };

/** Row of the table of usual values; throws on a name that it does not have. */
export const usualRow = (name: string): UsualRow => {
  const row = rows.find((one) => one.name === name);
  if (!row) throw new Error(`No usual value "${name}".`);
  return row;
};

/** Usual efficiency of a system's kind; a furnace burns natural gas. */
export const usualEfficiency = ({ equipment }: AirSystem): SystemEfficiency => {
  const degradation = usualRow('degradation at part load').value;
  return {
    ...(equipment.heating && {
      heating: equipment.heating.byOutdoorTemperature
        ? { fuel: 'electricity', efficiency: heatingCop(usualRow('heat pump, HSPF').value), degradation }
        : { fuel: 'natural gas', efficiency: usualRow('furnace, AFUE').value, degradation: 0 },
    }),
    ...(equipment.cooling && {
      cooling: { cop: coolingCop(usualRow('cooling, SEER').value), degradation },
    }),
  };
};

/** Usual price of a fuel, flat. */
export const usualTariff = (fuel: Fuel): Tariff => ({
  standing_perMonth: 0,
  otherUse_J: 0,
  price: { kind: 'flat', price_perJ: usualRow(`${fuel}, price`).value },
});

/** CO₂ by fuel, kg per J at the meter. */
export const usualEmission_kgJ = (fuel: Fuel): number => usualRow(`${fuel}, emission`).value;

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
