/** Median of a list. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

/**
 * Median time of each task in µs. The tasks take turns call by call, so that whatever else the machine is doing falls
 * on all of them alike; a warm-up comes first.
 *
 * @param budget_ms time to spend on all tasks together, warm-up included
 */
export function interleavedMedians(tasks: readonly (() => unknown)[], budget_ms = 2500): number[] {
  const times = tasks.map((): number[] => []);
  const begin = performance.now();
  const warmUp = 0.3 * budget_ms;
  let rounds = 0;
  while (performance.now() - begin < budget_ms || rounds < 5) {
    const counts = performance.now() - begin > warmUp;
    tasks.forEach((task, i) => {
      const start = performance.now();
      task();
      if (counts) times[i]!.push(1000 * (performance.now() - start));
    });
    if (counts) rounds++;
  }
  return times.map(median);
}
