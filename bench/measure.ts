/** Median of a list. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

/**
 * Processor time of one call, µs, as the mean of a batch. Processor time and not wall time: what other programs take
 * away from us on a busy machine is not ours.
 */
export function callTime(task: () => unknown, calls: number): number {
  const start = process.cpuUsage();
  for (let i = 0; i < calls; i++) task();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / calls;
}

/** Length of one batch: long against the resolution of the clock, short against a turn of the scheduler. */
const BATCH_us = 1000;

/**
 * Least time of one call of each task in µs. The tasks take turns, a short batch of calls each, for as long as the
 * budget lasts; a warm-up comes first. Of all batches of a task the quickest counts, by the same rule for every task:
 * whatever else runs on the machine can only lengthen a batch, through the caches too, and some batches it leaves alone.
 *
 * @param budget_ms time to spend on all tasks together, warm-up included
 */
export function interleavedMinima(tasks: readonly (() => unknown)[], budget_ms = 2500): number[] {
  const begin = performance.now();
  const calls = tasks.map(() => 4);
  while (performance.now() - begin < 0.3 * budget_ms) {
    tasks.forEach((task, i) => {
      calls[i] = Math.max(1, Math.round(BATCH_us / Math.max(1, callTime(task, calls[i]!))));
    });
  }
  const least = tasks.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < 9 || performance.now() - begin < budget_ms; round++) {
    tasks.forEach((task, i) => {
      least[i] = Math.min(least[i]!, callTime(task, calls[i]!));
    });
  }
  return least;
}
