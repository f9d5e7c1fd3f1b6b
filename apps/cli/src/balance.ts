import { balance, withNewDampers } from '@airledger/engine';
import { type Command, Option } from 'commander';
import { BadInput } from './bad-input.ts';
import { balanceJson, balanceText } from './balance-text.ts';
import { exitCodes } from './exit-codes.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { readHouse } from './read-house.ts';

type Options = JobOptions & {
  readonly season: 'heating' | 'cooling' | 'both';
  readonly newDampers?: true;
};

/** `airledger balance`: damper positions and the sheet to set them by; exit code 1 when dampers do not suffice. */
export const balanceCommand = (): Command =>
  jobCommand(
    'balance',
    'npx airledger balance demo/1-quail-run-lane.airledger.json --state as-specified --new-dampers',
  )
    .addOption(
      new Option('--season <season>', 'set the dampers for one season, or by a compromise for both')
        .choices(['heating', 'cooling', 'both'])
        .default('both'),
    )
    .option('--new-dampers', 'as if every run without a damper were given one')
    .action(async (path: string, { json, units, state, weather, season, newDampers }: Options) => {
      const house = await readHouse(path, { state, weather });
      const survey = newDampers ? withNewDampers(house) : house;
      const found = balanced(survey);
      const text = json
        ? JSON.stringify(balanceJson(survey, found, season), null, 2)
        : balanceText(survey, found, season, units);
      process.stdout.write(`${text}\n`);
      const judged = season === 'both' ? found.compromise.seasons : found.seasons;
      const obstacles = judged.filter(({ mode }) => season === 'both' || mode === season);
      process.exitCode = obstacles.some((one) => one.obstacles.length > 0)
        ? exitCodes.failsCheck
        : exitCodes.fine;
    });

/** @throws BadInput when there is no air to share out */
const balanced = (survey: Parameters<typeof balance>[0]): ReturnType<typeof balance> => {
  try {
    return balance(survey);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new BadInput(`This house can not be balanced as it is: ${error.message}.`);
  }
};
