// Stations and design conditions out of a weather file. The file is made here; what it must give is counted by hand.
import { describe, expect, it } from 'vitest';
import { designFromWeatherFile } from '../../packages/engine/src/climate/design-from-weather-file.ts';
import { designGround } from '../../packages/engine/src/climate/ground-temperature.ts';
import { readWeatherFile, WeatherFileError } from '../../packages/engine/src/climate/read-weather-file.ts';
import { stationById, stations } from '../../packages/engine/src/climate/stations.ts';
import { weatherHeader as header, yearFile } from '../fixtures/weather-file.ts';

describe('stations', () => {
  it('are 25, each with its own id, a source, and a wet bulb below the dry bulb', () => {
    expect(stations).toHaveLength(25);
    expect(new Set(stations.map((station) => station.id)).size).toBe(25);
    for (const station of stations) {
      expect(station.source).toContain('ASHRAE Handbook—Fundamentals 2021');
      expect(station.coolingWetBulb_C).toBeLessThan(station.coolingDryBulb_C);
      for (const value of [station.heatingDryBulb_C, station.coolingDryBulb_C, station.coolingWetBulb_C])
        expect(Number.isInteger(value)).toBe(true);
    }
  });

  it('Atlanta, rounded: −3 °C, 33/23 °C (ASHRAE Handbook—Fundamentals 2021 ch. 14 and 17)', () => {
    const atlanta = stationById('atlanta')!;
    expect([atlanta.heatingDryBulb_C, atlanta.coolingDryBulb_C, atlanta.coolingWetBulb_C]).toEqual([
      -3, 33, 23,
    ]);
    expect(atlanta.annualMean_C).toBe(17);
    expect(stationById('nowhere')).toBeUndefined();
  });

  it('ground on the design day lies an amplitude below the annual mean in heating', () => {
    expect(designGround(17, 8)).toEqual({ heating_C: 9, cooling_C: 17 });
  });
});

describe('a weather file', () => {
  // Each hour has its own hundredth of a degree from −20.00 to 67.59, stirred by a stride that has no factor in 8760.
  const stirred = (n: number) => -20 + ((n * 3767) % 8760) / 100;
  const design = designFromWeatherFile(yearFile(stirred));

  it('gives the values that 35, 88 and 175 hours reach or pass', () => {
    const highest = 67.59;
    expect(design.cooling['0.4 %'].dryBulb_C).toBeCloseTo(highest - 0.34, 9);
    expect(design.cooling['1 %'].dryBulb_C).toBeCloseTo(highest - 0.87, 9);
    expect(design.cooling['2 %'].dryBulb_C).toBeCloseTo(highest - 1.74, 9);
    expect(design.heating_C['99.6 %']).toBeCloseTo(-20 + 0.34, 9);
    expect(design.heating_C['99 %']).toBeCloseTo(-20 + 0.87, 9);
    expect(design.annualMean_C).toBeCloseTo(-20 + 87.59 / 2, 6);
  });

  it('says who and where it is, and that it is not a design source', () => {
    expect(design.place).toBe('MADE, UP, ZZ');
    expect([design.latitude_deg, design.longitude_deg, design.elevation_m]).toEqual([36.1, -79.95, 273]);
    expect(design.caution).toContain('not a design source');
  });

  it('takes the daily range of the hottest month', () => {
    const range = designFromWeatherFile(
      yearFile(
        (n) => (n >= 4344 && n < 5088 ? 25 : 10) + (n % 24 === 15 ? (n >= 4344 && n < 5088 ? 8 : 12) : 0),
      ),
    ).dailyRange_K;
    expect(range).toBeCloseTo(8, 9);
  });

  it('counts hours as ending at their stamp, and finds columns by name', () => {
    const shuffled = header.split(',').toReversed();
    const year = readWeatherFile(yearFile(stirred, shuffled));
    expect([year.month[0], year.day[0], year.hour[0], year.hour[23]]).toEqual([1, 1, 0, 23]);
    expect(year.dryBulb_C[1]).toBe(stirred(1));
    expect([year.pressure_Pa[5], year.wind_ms[5], year.direct_Wm2[5]]).toEqual([100000, 3.5, 50]);
  });

  it('says what is wrong and on which line', () => {
    const good = yearFile(stirred).split('\r\n');
    const broken = (line: number, from: string | RegExp, to: string) => () =>
      readWeatherFile(good.map((text, i) => (i === line - 1 ? text.replace(from, to) : text)).join('\n'));
    expect(broken(2, 'Dry-bulb (C)', 'Temp')).toThrow(WeatherFileError);
    expect(broken(2, 'Dry-bulb (C)', 'Temp')).toThrow('Dry-bulb (C)');
    expect(broken(40, ',1000,', ',-9900,')).toThrow('Line 40: Pressure (mbar)');
    expect(broken(41, '01/02/1980', 'yesterday')).toThrow('Line 41');
    expect(() => readWeatherFile(good.slice(0, 100).join('\n'))).toThrow('whole days');
    expect(() => readWeatherFile('')).toThrow(WeatherFileError);
  });
});
