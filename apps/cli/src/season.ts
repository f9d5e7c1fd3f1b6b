import { readWeatherFile, season, type WeatherYear, yearOfSite } from '@airledger/engine';
import type { Command } from 'commander';
import { type JobOptions, jobCommand } from './job-command.ts';
import { progress } from './progress.ts';
import { readHouse } from './read-house.ts';
import { readText } from './read-text.ts';
import { seasonText } from './season-text.ts';

/** `airledger season`: what a house uses, costs and emits in a year, and how its rooms and ducts fare. */
export const seasonCommand = (): Command =>
  jobCommand(
    'season',
    'npx airledger season demo/1-quail-run-lane.airledger.json --state as-specified',
  ).action(async (path: string, { json, units, state, weather }: JobOptions) => {
    const survey = await readHouse(path, { state, weather });
    const year: WeatherYear =
      weather === undefined ? yearOfSite(survey) : readWeatherFile(await readText(weather));
    const hours = year.dryBulb_C.length;
    const shown = progress('Running the year');
    // Telling how far it is takes longer than the hours themselves: only where somebody looks, and now and then.
    const found = season(
      survey,
      year,
      process.stderr.isTTY
        ? { onHour: ({ index }) => index % 400 === 0 && shown.at(index / hours) }
        : undefined,
    );
    shown.end();
    const prices = Object.entries(survey.facts).flatMap(([at, fact]) =>
      /^season\/|\/equipment\/(heating\/(fuel|afue|hspf)|cooling\/seer)$/.test(at)
        ? [{ path: at, ...fact }]
        : [],
    );
    const text = json
      ? JSON.stringify({ ...found, inputs: prices }, null, 2)
      : seasonText(found, prices, units);
    process.stdout.write(`${text}\n`);
  });
