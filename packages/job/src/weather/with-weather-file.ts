import { type Dimension, designFromWeatherFile, formatQuantity } from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';

/**
 * A job whose site takes place and design conditions from the hours of a TMY3 weather file. Everything is typed into
 * the site with the caution as its source, because a typical year is not a design source. Typed ground temperatures
 * stay; those that followed from a station follow from the new design conditions.
 * @throws WeatherFileError when the text is not such a file.
 */
export function withWeatherFile(job: Job, weatherText: string): Job {
  const design = designFromWeatherFile(weatherText);
  const typed = (value: number, dimension: Dimension) => formatQuantity(value, dimension, 'si', 1);
  const cooling = design.cooling['1 %'];
  const { groundHeating, groundCooling } = job.site;
  return {
    ...job,
    site: {
      place: design.place,
      latitude: typed(design.latitude_deg, 'angle'),
      elevation: typed(design.elevation_m, 'length'),
      heatingDesign: typed(design.heating_C['99 %'], 'temperature'),
      heatingPercentile: '99 %',
      coolingDesign: typed(cooling.dryBulb_C, 'temperature'),
      coolingWetBulb: typed(cooling.wetBulb_C, 'temperature'),
      coolingPercentile: '1 %',
      dailyRange: typed(design.dailyRange_K, 'temperatureDifference'),
      source: `the hours of a weather file. ${design.caution}`,
      ...(groundHeating !== undefined && { groundHeating }),
      ...(groundCooling !== undefined && { groundCooling }),
    },
  };
}
