import { factorAndSolve, solveWithFactor } from '../numerics/ldl.ts';
import type { CompiledNetwork } from './compile.ts';
import { densityRatio, fanCurve } from './element-law.ts';
import { workingPoints } from './fan-law.ts';
import { RECORD } from './record.ts';

const { CONDUCTANCE, FLOW, FROM, LINKS, STRIDE, TO } = RECORD;

/**
 * Fans with a stall dip that could also run at another flow: the system, seen from the fan's two ends with its
 * local slope (port resistance), meets the table more than once.
 */
export function findAmbiguousFans(compiled: CompiledNetwork): number[] {
  const { elements, place, records, links, pattern, head, air } = compiled;
  const found: number[] = [];
  for (const index of compiled.dipFans) {
    const element = elements[index]!;
    const record = place[index]!;
    if (element.kind !== 'fan') continue;
    const from = links[record * LINKS + FROM]!;
    const to = links[record * LINKS + TO]!;
    // Answer of the rest of the network to one unit of flow pushed from the fan's inlet to its outlet.
    const diagonal = compiled.diagonal.slice();
    const lower = compiled.lower.slice();
    const conductance = records[record * STRIDE + CONDUCTANCE]!;
    diagonal[from] = diagonal[from]! - conductance * (1 - WEAK);
    diagonal[to] = diagonal[to]! - conductance * (1 - WEAK);
    const entry = links[record * LINKS + 2]!;
    lower[entry] = lower[entry]! + conductance * (1 - WEAK);
    for (const node of compiled.closedNodes) diagonal[node] = 1;
    const right = new Float64Array(head.length);
    const answer = new Float64Array(head.length);
    factorAndSolve(pattern, diagonal, lower, right, answer);
    right.fill(0);
    right[from] = -1;
    right[to] = 1;
    solveWithFactor(pattern, diagonal, lower, right, answer);
    const slope = answer[to]! - answer[from]!;
    const curve = fanCurve(element, densityRatio(element, air));
    const rise = head[to]! - head[from]!;
    if (workingPoints(curve, records[record * STRIDE + FLOW]!, rise, slope) > 1) found.push(index);
  }
  return found;
}

/** What is left of the fan's own conductance, so that its ends stay tied together when nothing else does. */
const WEAK = 1e-9;
