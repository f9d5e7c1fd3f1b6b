/**
 * Runs one job at a time and, while one runs, keeps only the newest input: a handle that moves faster than
 * the answer comes never builds a queue. An answer may come in steps; those that a newer input overtakes are left out.
 * Between an answer and the next run lies `rest`, if any.
 */
export const latestWins = <Input, Output>(
  run: (input: Input) => AsyncIterable<Output>,
  deliver: (output: Output, input: Input) => void,
  fail: (error: unknown, input: Input) => void,
  rest?: () => Promise<void>,
): ((input: Input) => void) => {
  let running = false;
  let waiting: { input: Input } | undefined;
  const start = async (input: Input): Promise<void> => {
    running = true;
    try {
      for await (const output of run(input)) {
        deliver(output, input);
        if (waiting) break;
      }
    } catch (error) {
      fail(error, input);
    }
    await rest?.();
    running = false;
    const next = waiting;
    waiting = undefined;
    if (next) void start(next.input);
  };
  return (input) => {
    if (running) waiting = { input };
    else void start(input);
  };
};
