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

/** Length of one batch: long against the resolution of the clock, short against the moods of the machine. */
const BATCH_us = 4000;

/**
 * Median time of one call of each task in µs. The tasks take turns, a batch of calls each, so that whatever slows the
 * machine falls on all of them alike; a warm-up comes first.
 *
 * @param budget_ms time to spend on all tasks together, warm-up included
 */
export function interleavedMedians(tasks: readonly (() => unknown)[], budget_ms = 2500): number[] {
  const begin = performance.now();
  const calls = tasks.map(() => 4);
  while (performance.now() - begin < 0.3 * budget_ms) {
    tasks.forEach((task, i) => {
      calls[i] = Math.max(1, Math.round(BATCH_us / Math.max(1, callTime(task, calls[i]!))));
    });
  }
  const times = tasks.map((): number[] => []);
  while (performance.now() - begin < budget_ms || times[0]!.length < 9) {
    tasks.forEach((task, i) => {
      times[i]!.push(callTime(task, calls[i]!));
    });
  }
  return times.map(median);
}
