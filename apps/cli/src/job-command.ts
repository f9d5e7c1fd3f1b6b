import type { UnitSystem } from '@airledger/engine';
import { Command, Option } from 'commander';

/** Options that every command on a job understands. */
export type JobOptions = {
  readonly json?: true;
  readonly units: UnitSystem;
  readonly state?: string;
  readonly weather?: string;
};

/** A command on one job file, with the options all of them share and an example to paste. */
export const jobCommand = (
  name: string,
  example: string,
  stateHelp = 'state of the house; the first when not given',
): Command =>
  new Command(name)
    .argument('<JOB>', 'job file (*.airledger.json), or - for stdin')
    .option('--json', 'write JSON; its values are SI and its keys carry the unit')
    .addOption(unitsOption())
    .option('--state <id>', stateHelp)
    .option(
      '--weather <file>',
      'take place and design temperatures from the hours of a TMY3 file (not a design source)',
    )
    .addHelpText('after', `\nExample:\n  ${example}`);

export const unitsOption = (): Option =>
  new Option('--units <system>', 'units of the text').choices(['ip', 'si']).default('ip');
