import { type Account, account, type Mode, modes, type Survey } from '@airledger/engine';
import { placesOf } from '@airledger/report/place-names';
import { type Command, Option } from 'commander';
import { accountJson } from './account-json.ts';
import { type AccountText, accountText } from './account-text.ts';
import { BadInput } from './bad-input.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { readHouse } from './read-house.ts';

type Options = JobOptions & {
  readonly mode: Mode | 'both';
  readonly place?: string;
  readonly lines?: true;
};

/** `airledger account`: the ledger of a house, for an audit by hand. */
export const accountCommand = (): Command =>
  jobCommand(
    'account',
    'npx airledger account demo/1-quail-run-lane.airledger.json --mode cooling --place bedroom-3',
  )
    .addOption(new Option('--mode <mode>', 'design day').choices([...modes, 'both']).default('both'))
    .option('--place <id>', 'only this air handler, duct part, room or zone')
    .option('--lines', 'the lines of every duct part too')
    .action(async (path: string, { json, units, state, weather, mode, place, lines }: Options) => {
      const survey = await readHouse(path, { state, weather });
      if (place !== undefined) requirePlace(survey, place);
      const accounts = modes
        .filter((one) => mode === 'both' || mode === one)
        .map((one) => account(survey, one));
      const show: AccountText = { units, place, allLines: lines };
      const text = json
        ? JSON.stringify(asJson(survey, accounts, place), null, 2)
        : accounts.map((one) => accountText(one, show)).join('\n\n\n');
      process.stdout.write(`${text}\n`);
    });

const requirePlace = (survey: Survey, place: string): void => {
  const ids = placesOf(survey).map(({ id }) => id);
  if (!ids.includes(place))
    throw new BadInput(`There is no place "${place}" in this house; it has: ${ids.join(', ')}.`);
};

const asJson = ({ name, state }: Survey, accounts: readonly Account[], place: string | undefined) => ({
  name,
  state,
  accounts: Object.fromEntries(accounts.map((one) => [one.mode, accountJson(one, place)])),
});
