import { BadInput } from './bad-input.ts';
import { exitCodes } from './exit-codes.ts';

/** Says on stderr what went wrong, as JSON when asked, and gives the exit code for it. */
export const reportFault = (error: unknown, asJson: boolean): number => {
  const bad = error instanceof BadInput;
  const message = error instanceof Error ? error.message : String(error);
  if (asJson) {
    const errors = bad && error.errors.length > 0 ? error.errors : [{ message }];
    console.error(JSON.stringify({ errors }, null, 2));
  } else if (bad) console.error(message);
  else
    console.error(
      `Internal error, a fault of the program: ${error instanceof Error ? error.stack : message}`,
    );
  return bad ? exitCodes.badInput : exitCodes.internal;
};
