import { Command, CommanderError } from 'commander';
import { exitCodes } from './exit-codes.ts';
import { reportFault } from './report-fault.ts';

type CommandEntry = { readonly about: string; readonly load: () => Promise<Command> };

/** Commands by name; only the one that is asked for is loaded, so that it starts at once. */
const commands: Readonly<Record<string, CommandEntry>> = {
  open: {
    about: 'Start the workbench on this machine and show a job in it.',
    load: async () => (await import('./open.ts')).openCommand(),
  },
  account: {
    about: 'Print the account of air and heat, line by line, with its closing sums.',
    load: async () => (await import('./account.ts')).accountCommand(),
  },
  check: {
    about: 'Hold the house against code, project specification and trade practice.',
    load: async () => (await import('./check.ts')).checkCommand(),
  },
  calibrate: {
    about: 'Find leaks and restrictions by the readings, and the readings that contradict the rest.',
    load: async () => (await import('./calibrate.ts')).calibrateCommand(),
  },
  repair: {
    about: 'Plan the best set of repairs for a goal, with cost, order of work and what each is worth.',
    load: async () => (await import('./repair.ts')).repairCommand(),
  },
  balance: {
    about:
      'Find damper positions that bring all rooms the same share of their air, and a sheet to set them by.',
    load: async () => (await import('./balance.ts')).balanceCommand(),
  },
  season: {
    about: 'Run a year: energy, cost, CO₂, comfort by room, and ducts that sweat.',
    load: async () => (await import('./season.ts')).seasonCommand(),
  },
  explain: {
    about: 'Say why rooms are short of air and heat, and the house uneven, cause by cause.',
    load: async () => (await import('./explain.ts')).explainCommand(),
  },
  figure: {
    about: 'Answer a single question with its formula and source.',
    load: async () => (await import('./figure.ts')).figureCommand(),
  },
  handover: {
    about: 'Write the handover as one self-contained HTML page.',
    load: async () => (await import('./handover.ts')).handoverCommand(),
  },
};

/** Runs one command line; sets the exit code and lets output drain instead of ending the process. */
export const main = async (words: readonly string[]): Promise<void> => {
  // `airledger account … | head` closes the pipe early, which is no fault.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(exitCodes.fine);
    throw error;
  });
  const program = new Command('airledger')
    .description('One account of air and heat from the air handler to each room.')
    .version('0.1.0')
    .exitOverride()
    .addHelpText(
      'after',
      '\nExit codes: 0 fine, 1 the house fails a check, 2 bad input, 3 internal error.\nExample:\n  npx airledger account demo/1-quail-run-lane.airledger.json --mode cooling',
    );
  const asked = words[0] === 'help' ? words[1] : words[0];
  try {
    for (const [name, { about, load }] of Object.entries(commands)) {
      const command = name === asked ? await load() : new Command(name);
      program.addCommand(command.description(about).copyInheritedSettings(program));
    }
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    // Commander has already said what is wrong.
    process.exitCode =
      error instanceof CommanderError
        ? error.exitCode && exitCodes.badInput
        : reportFault(error, words.includes('--json'));
  }
};
