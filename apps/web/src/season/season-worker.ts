import { readWeatherFile, type Season, type Survey, season, yearOfSite } from '@airledger/engine';
import { expose } from 'comlink';

/** What the page asks of a year; a question is given up by ending the worker. */
const runner = {
  /**
   * @param weather text of a TMY3 file; a year is made from the site's design temperatures when absent
   * @throws WeatherFileError when the text is no such file
   */
  season: (survey: Survey, weather: string | undefined): Season =>
    season(survey, weather === undefined ? yearOfSite(survey) : readWeatherFile(weather)),
};

export type SeasonRunner = typeof runner;

expose(runner);
