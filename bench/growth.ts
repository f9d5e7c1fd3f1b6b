import { compileNetwork, solveNetwork } from '../packages/engine/src/network/index.ts';
import { type Line, limited, plain } from './line.ts';
import { callTime } from './measure.ts';
import { treeNetwork } from './networks.ts';

/** Time per element may at most double while the network grows a thousandfold. */
const MOST_GROWTH = 2;
const MOST_MEMORY_MB = 500;

const ROUNDS = 15;
/** Every size solves about this many ducts in a round, so that a busy machine slows all of them alike; the best round counts. */
const DUCTS_PER_ROUND = 100_000;

/** How time and memory grow from 100 to 100,000 ducts. */
export async function growth(): Promise<Line[]> {
  const sizes = [100, 1000, 10_000, 100_000].map((ducts) => {
    const network = treeNetwork(ducts, Math.round(ducts / 50));
    const begin = performance.now();
    const compiled = compileNetwork(network);
    const compile_ms = performance.now() - begin;
    const { converged, iterations, worst } = solveNetwork(compiled, { start: 'cold' });
    if (!converged) throw new Error(worst?.reason);
    const count = network.elements.length;
    return { ducts, count, compiled, compile_ms, iterations, least: Number.POSITIVE_INFINITY };
  });
  for (let round = 0; round < ROUNDS; round++) {
    for (const size of sizes) {
      const repeats = DUCTS_PER_ROUND / size.ducts;
      const time = callTime(() => solveNetwork(size.compiled, { start: 'cold' }), repeats) / size.count;
      size.least = Math.min(size.least, time);
    }
  }
  const first = sizes[0]!;
  const last = sizes[sizes.length - 1]!;
  return [
    ...sizes.flatMap(({ ducts, count, compile_ms, iterations, least }) => [
      plain(`${ducts} ducts, ${count} elements: compile`, compile_ms, 'ms'),
      plain(`${ducts} ducts: cold solve (${iterations} iterations)`, (least * count) / 1000, 'ms'),
      plain(`${ducts} ducts: cold solve per element`, least, 'µs'),
    ]),
    limited('time per element, 100,000 against 100', last.least / first.least, '×', 'most', MOST_GROWTH),
    limited('memory of the whole process', process.memoryUsage().rss / 1e6, 'MB', 'most', MOST_MEMORY_MB),
  ];
}
