import { Command, CommanderError } from 'commander';
import { accountCommand } from './account.ts';
import { checkCommand } from './check.ts';
import { exitCodes } from './exit-codes.ts';
import { figureCommand } from './figure.ts';
import { handoverCommand } from './handover.ts';
import { openCommand } from './open.ts';
import { reportFault } from './report-fault.ts';

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
  for (const command of [openCommand(), accountCommand(), checkCommand(), figureCommand(), handoverCommand()])
    program.addCommand(command.copyInheritedSettings(program));
  try {
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    // Commander has already said what is wrong.
    process.exitCode =
      error instanceof CommanderError
        ? error.exitCode && exitCodes.badInput
        : reportFault(error, words.includes('--json'));
  }
};
