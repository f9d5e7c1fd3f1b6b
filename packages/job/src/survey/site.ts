import type { IndoorConditions, Site } from '@airledger/engine';
import { designGround } from '@airledger/engine/climate/ground-temperature';
import { stationPercentiles } from '@airledger/engine/climate/stations';
import type { Job } from '../schema/job-schema.ts';
import { type Fallback, type Surveyor, usually } from './surveyor.ts';
import { named, stations } from './tables.ts';

/**
 * Mean of the year against the middle between the design temperatures, K: the degree days of 25 stations from
 * Honolulu to Fairbanks give 1.4 K, with 1.7 K standard deviation.
 */
const meanAboveMiddle_K = 1.4;

/** Site of a job: typed values first, then the station's. Every design temperature has one of the two (checked on reading). */
export const siteOf = (
  job: Job,
  survey: Surveyor,
): { readonly site: Site; readonly climateZone: string | undefined } => {
  const { site } = job;
  const station = site.station === undefined ? undefined : named(stations, site.station);
  const fromStation = (value: number | undefined): Fallback => ({
    value: value ?? Number.NaN,
    source: station?.source ?? 'not stated',
  });
  const heating = survey.quantity(
    'site/heatingDesign',
    site.heatingDesign,
    'temperature',
    fromStation(station?.heatingDryBulb_C),
  );
  const cooling = survey.quantity(
    'site/coolingDesign',
    site.coolingDesign,
    'temperature',
    fromStation(station?.coolingDryBulb_C),
  );
  const ground = designGround(station?.annualMean_C ?? (heating + cooling) / 2 + meanAboveMiddle_K);
  const fromMean = (value: number): Fallback => ({
    value,
    source: `mean of the year ${station ? 'of the station' : 'estimated from the design temperatures'}; ASHRAE Handbook—Fundamentals 2021 ch. 18`,
  });
  const place: Site = {
    place: site.place ?? station?.name ?? job.about?.address ?? job.name,
    elevation_m: survey.quantity(
      'site/elevation',
      site.elevation,
      'length',
      fromStation(station?.elevation_m),
    ),
    latitude_deg: survey.quantity(
      'site/latitude',
      site.latitude,
      'angle',
      fromStation(station?.latitude_deg),
    ),
    designSource: site.source ?? station?.source ?? 'as typed',
    heatingDryBulb_C: heating,
    heatingPercentile:
      site.heatingPercentile ?? (site.heatingDesign === undefined ? stationPercentiles.heating : 'as typed'),
    coolingDryBulb_C: cooling,
    coolingWetBulb_C: survey.quantity(
      'site/coolingWetBulb',
      site.coolingWetBulb,
      'temperature',
      fromStation(station?.coolingWetBulb_C),
    ),
    coolingPercentile:
      site.coolingPercentile ?? (site.coolingDesign === undefined ? stationPercentiles.cooling : 'as typed'),
    dailyRange_K: survey.quantity(
      'site/dailyRange',
      site.dailyRange,
      'temperatureDifference',
      fromStation(station?.dailyRange_K),
    ),
    groundHeating_C: survey.quantity(
      'site/groundHeating',
      site.groundHeating,
      'temperature',
      fromMean(ground.heating_C),
    ),
    groundCooling_C: survey.quantity(
      'site/groundCooling',
      site.groundCooling,
      'temperature',
      fromMean(ground.cooling_C),
    ),
  };
  return { site: place, climateZone: station?.zone };
};

export const indoorOf = (job: Job, survey: Surveyor): IndoorConditions => {
  const indoor = job.indoor ?? {};
  const take = (field: keyof typeof indoor, dimension: 'temperature' | 'ratio'): number =>
    survey.quantity(`indoor/${field}`, indoor[field], dimension, usually(`indoor.${field}`));
  return {
    heating_C: take('heating', 'temperature'),
    cooling_C: take('cooling', 'temperature'),
    coolingRelativeHumidity: take('coolingHumidity', 'ratio'),
    heatingRelativeHumidity: take('heatingHumidity', 'ratio'),
  };
};
