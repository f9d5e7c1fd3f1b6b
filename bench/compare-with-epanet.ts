import {
  compileNetwork,
  editElement,
  type Network,
  type NetworkElement,
  type NetworkSolution,
  solveNetwork,
} from '../packages/engine/src/network/index.ts';
import { comparableNetwork } from './comparable.ts';
import { epanetModel } from './epanet.ts';
import { type Line, limited, plain } from './line.ts';
import { interleavedMinima } from './measure.ts';

/** Least speed against EPANET at a residual of 1e-10, cold and after one edit. */
const LEAST_COLD = 2.5;
const LEAST_WARM = 5;
/** EPANET stops at its own tolerances; below that its flows and ours agree. */
const MOST_DIFFERENCE = 1e-5;

/**
 * Solves the nearest network that EPANET can express with both engines in one process, turn by turn: same flows, and
 * how much faster from nothing and after one real edit (damper, leak, diameter).
 */
export async function compareWithEpanet(network: Network, name: string): Promise<Line[]> {
  const same = comparableNetwork(network);
  const epanet = await epanetModel(same);
  try {
    const oracle = compileNetwork(same);
    const compiled = compileNetwork({ ...same, frictionLaw: 'colebrook' });
    const iterations = demand(solveNetwork(compiled)).iterations;
    epanet.solve();
    const lines = [
      limited(
        `${name}: largest flow difference`,
        flowDifference(demand(solveNetwork(oracle)), epanet.flows()),
        '',
        'most',
        MOST_DIFFERENCE,
      ),
    ];
    const cold = interleavedMinima([
      () => epanet.solve(),
      () => solveNetwork(compiled, { start: 'cold' }),
      () => solveNetwork(oracle, { start: 'cold' }),
    ]);
    lines.push(
      plain(`${name}: EPANET cold`, cold[0]!, 'µs'),
      plain(`${name}: Airledger cold (${iterations} iterations)`, cold[1]!, 'µs'),
      plain(`${name}: Airledger cold with EPANET's friction law`, cold[2]!, 'µs'),
      limited(`${name}: cold ratio`, cold[0]! / cold[1]!, '×', 'least', LEAST_COLD),
    );
    for (const [edit, index, change] of edits(network, same)) {
      const original = same.elements[index]!;
      // Three different values in turn: each edit really moves the flows.
      const states = [1, 0.5, 1.5].map((share) => change(original, share));
      for (const state of states) {
        editElement(oracle, index, state);
        epanet.set(index, state);
        epanet.solve();
        const difference = flowDifference(demand(solveNetwork(oracle)), epanet.flows());
        if (!(difference <= MOST_DIFFERENCE))
          throw new Error(`${name}: flows differ by ${difference} after ${edit}`);
      }
      let steps = 0;
      let solves = 0;
      // One call is a round through the states, so that no batch has more of the easy edits than another.
      const [epanetRound, ownRound] = interleavedMinima([
        () => {
          for (const state of states) {
            epanet.set(index, state);
            epanet.solve();
          }
        },
        () => {
          for (const state of states) {
            editElement(compiled, index, state);
            steps += solveNetwork(compiled).iterations;
            solves++;
          }
        },
      ]);
      lines.push(
        plain(`${name}: EPANET after ${edit}`, epanetRound! / states.length, 'µs'),
        plain(
          `${name}: Airledger after ${edit} (${(steps / solves).toFixed(1)} iterations)`,
          ownRound! / states.length,
          'µs',
        ),
        limited(`${name}: ratio after ${edit}`, epanetRound! / ownRound!, '×', 'least', LEAST_WARM),
      );
      editElement(compiled, index, original);
      editElement(oracle, index, original);
      epanet.set(index, original);
    }
    return lines;
  } finally {
    epanet.close();
  }
}

function demand(solution: NetworkSolution): NetworkSolution {
  if (!solution.converged || solution.residual > 1e-10)
    throw new Error(solution.worst?.reason ?? 'not converged');
  return solution;
}

function flowDifference(solution: NetworkSolution, flows: Float64Array): number {
  const scale = solution.flow_m3s.reduce((most, flow) => Math.max(most, Math.abs(flow)), 0);
  return flows.reduce((most, flow, i) => Math.max(most, Math.abs(flow - solution.flow_m3s[i]!)), 0) / scale;
}

type Edit = [name: string, index: number, change: (element: NetworkElement, share: number) => NetworkElement];

/**
 * One damper, one leak and one diameter in the middle of the network; shares 1, 0.5 and 1.5 give three states.
 * Which elements are leaks the given network says: where EPANET has no emitter for one, a square stands for it.
 */
function edits({ elements }: Network, same: Network): Edit[] {
  const found: Edit[] = [];
  const middle = (kind: NetworkElement['kind']) => {
    const all = elements.flatMap((element, i) => (element.kind === kind ? [i] : []));
    return all[Math.floor(all.length / 2)];
  };
  const ductIndex = same.elements.findIndex(({ kind }, i) => kind === 'duct' && i >= (middle('duct') ?? 0));
  const leakIndex = middle('leak');
  if (ductIndex >= 0) {
    found.push([
      'a damper',
      ductIndex,
      (element, share) =>
        element.kind === 'duct'
          ? { ...element, lossCoefficient: element.lossCoefficient + 8 * share - 8 * 0.5 + 4 }
          : element,
    ]);
  }
  if (leakIndex !== undefined) {
    found.push([
      'a leak',
      leakIndex,
      (element, share) =>
        element.kind === 'leak'
          ? { ...element, coefficient: element.coefficient * share * 2 }
          : element.kind === 'square'
            ? { ...element, coefficient: element.coefficient / (share * 2) ** 2 }
            : element,
    ]);
  }
  if (ductIndex >= 0) {
    found.push([
      'a diameter',
      ductIndex,
      (element, share) => {
        if (element.kind !== 'duct') return element;
        const diameter = element.hydraulicDiameter_m * (0.8 + 0.2 * share);
        return { ...element, hydraulicDiameter_m: diameter, area_m2: (Math.PI / 4) * diameter ** 2 };
      },
    ]);
  }
  return found;
}
