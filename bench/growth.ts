import { compileNetwork, solveNetwork } from '../packages/engine/src/network/index.ts';
import { type Line, limited, plain } from './line.ts';
import { median } from './measure.ts';
import { treeNetwork } from './networks.ts';

/** Time per element may at most double while the network grows a thousandfold. */
const MOST_GROWTH = 2;
const MOST_MEMORY_MB = 500;

/** How time and memory grow from 100 to 100,000 ducts. */
export async function growth(): Promise<Line[]> {
  const lines: Line[] = [];
  const perElement: number[] = [];
  for (const ducts of [100, 1000, 10_000, 100_000]) {
    const network = treeNetwork(ducts, Math.round(ducts / 50));
    const begin = performance.now();
    const compiled = compileNetwork(network);
    const compileTime = performance.now() - begin;
    const repeats = Math.max(7, Math.round(200_000 / ducts));
    const times: number[] = [];
    let iterations = 0;
    for (let i = 0; i < repeats; i++) {
      const start = performance.now();
      const solution = solveNetwork(compiled, { start: 'cold' });
      times.push(1000 * (performance.now() - start));
      if (!solution.converged) throw new Error(solution.worst?.reason);
      iterations = solution.iterations;
    }
    const count = network.elements.length;
    perElement.push(median(times) / count);
    lines.push(
      plain(`${ducts} ducts, ${count} elements: compile`, compileTime, 'ms'),
      plain(`${ducts} ducts: cold solve (${iterations} iterations)`, median(times) / 1000, 'ms'),
      plain(`${ducts} ducts: cold solve per element`, perElement[perElement.length - 1]!, 'µs'),
    );
  }
  const memory = process.memoryUsage().rss / 1e6;
  lines.push(
    limited(
      'time per element, 100,000 against 100',
      perElement[3]! / perElement[0]!,
      '×',
      'most',
      MOST_GROWTH,
    ),
    limited('memory of the whole process', memory, 'MB', 'most', MOST_MEMORY_MB),
  );
  return lines;
}
