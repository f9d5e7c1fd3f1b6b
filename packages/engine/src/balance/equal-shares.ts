import type { AirNetwork } from '../air/build-air-network.ts';
import { damperCoefficient } from '../ducts/fitting-loss.ts';
import { compileNetwork, flowSensitivity, type Network, solveNetwork } from '../network/index.ts';
import { solveDense } from '../numerics/dense.ts';
import type { DamperRun } from './damper-runs.ts';

/** A damper further shut than this is hard to set and noisy (common practice, no source). */
export const leastOpen = 0.1;
const openCoefficient = damperCoefficient(1);
const shutCoefficient = damperCoefficient(leastOpen);
/** Shares equal to this end the search; settings are only known to a few per cent anyway. */
const tolerance = 1e-5;
const mostSteps = 40;

/** Loss coefficients of the dampers at which all set registers of each system get the same share of their targets. */
export type EqualShares = {
  /** By run, in the order given; undefined where a run has no damper. */
  readonly coefficient: readonly (number | undefined)[];
  readonly flow_m3s: readonly number[];
  /** By system: the common share, and the terminal whose damper is wide open. */
  readonly systems: readonly {
    readonly system: string;
    readonly share: number;
    readonly heldBackBy: string;
  }[];
};

/**
 * Equal shares with the least throttling. Newton's method on the damper losses C with the network's own
 * sensitivities: q + M·ΔC = r·t for targets t and a common share r, so ΔC is linear in r; r is the largest for which
 * no damper would have to be more than wide open. Systems take turns in each step, as they meet only through rooms.
 * The register that needs most pressure keeps its damper open, as the proportional method of balancing leaves it
 * (ASHRAE Standard 111 describes that method; from memory).
 *
 * @param targets air each run is to give, m³/s, > 0 where it has a damper
 * @param start losses to start from; all dampers wide open when not given
 * @throws RangeError when air does not flow out of a register that is to be set, or shares do not become equal
 */
export function equalShares(
  { network }: AirNetwork,
  runs: readonly DamperRun[],
  targets: readonly number[],
  start?: EqualShares['coefficient'],
): EqualShares {
  const coefficient = runs.map(({ damper }, index) => damper && (start?.[index] ?? openCoefficient));
  const ofSystem = new Map<string, number[]>();
  runs.forEach(({ system, damper }, index) => {
    if (damper) ofSystem.set(system, [...(ofSystem.get(system) ?? []), index]);
  });
  for (let step = 0; step < mostSteps; step++) {
    const compiled = compileNetwork(withCoefficients(network, runs, coefficient));
    const flow = solveNetwork(compiled).flow_m3s;
    const sensitivity = flowSensitivity(compiled);
    let error = 0;
    const systems = [...ofSystem].map(([system, all]) => {
      const set = all.filter((index) => coefficient[index]! < shutCoefficient);
      const ends = set.map((index) => runs[index]!);
      for (const { element, terminal } of ends)
        if (!(flow[element]! > 0)) throw new RangeError(`no air flows out of register '${terminal}'`);
      const matrix = new Float64Array(set.length ** 2);
      ends.forEach(({ element }, row) => {
        const byDrop = sensitivity.adjointOfFlow(element);
        ends.forEach(({ damper }, column) => {
          const { piece, perFlowSquared } = damper!;
          matrix[row * set.length + column] = byDrop[piece]! * perFlowSquared * flow[piece]! ** 2;
        });
      });
      const toTargets = solveDense(
        matrix.slice(),
        Float64Array.from(set, (index) => targets[index]!),
      );
      const toNothing = solveDense(
        matrix,
        Float64Array.from(ends, ({ element }) => flow[element]!),
      );
      let share = Number.POSITIVE_INFINITY;
      let held = 0;
      set.forEach((index, i) => {
        const most = (openCoefficient - coefficient[index]! + toNothing[i]!) / toTargets[i]!;
        if (toTargets[i]! < 0 && most < share) [share, held] = [most, i];
      });
      set.forEach((index, i) => {
        error = Math.max(error, Math.abs(flow[ends[i]!.element]! / (share * targets[index]!) - 1));
        const next = coefficient[index]! + share * toTargets[i]! - toNothing[i]!;
        coefficient[index] = Math.min(shutCoefficient, Math.max(openCoefficient, next));
      });
      return { system, share, heldBackBy: ends[held]!.terminal };
    });
    if (error < tolerance)
      return { coefficient, flow_m3s: runs.map(({ element }) => flow[element]!), systems };
  }
  throw new RangeError('no damper settings give equal shares');
}

/** The network with other losses in its dampers. */
export function withCoefficients(
  network: Network,
  runs: readonly DamperRun[],
  coefficient: readonly (number | undefined)[],
): Network {
  const elements = network.elements.slice();
  runs.forEach(({ damper }, index) => {
    if (!damper) return;
    const element = elements[damper.piece]!;
    if (element.kind === 'duct')
      elements[damper.piece] = {
        ...element,
        lossCoefficient: element.lossCoefficient + coefficient[index]! - damper.coefficient,
      };
  });
  return { ...network, elements };
}
