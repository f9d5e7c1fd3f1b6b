import {
  compileNetwork,
  type Network,
  type NetworkElement,
  solveNetwork,
} from '../packages/engine/src/network/index.ts';
import { EMITTER_EXPONENT } from './epanet.ts';

/** Drop that an opening is given when it has less where the network runs. */
const leastDrop_Pa = 0.05;

/**
 * The nearest network that EPANET can express, with the friction law it has: same shape, same number of
 * elements, same pressures where the given network runs, other laws where it has no such law.
 * - ducts become round with the same loss at the same flow; negative coefficients become zero; slack lengthens
 * - power laws, stopped fans and leaks that can not be emitters become squares with the same loss at the flow they have
 * - doorways so wide that nothing drops across them are narrowed
 * - leaks take the exponent 0.6 with the flow they have; further leaks of one node become squares
 * - a fan runs on its table, thinned of stall dips, without constant-flow control
 * - tees, static-pressure leaks and densities are left out
 */
export function comparableNetwork(network: Network): Network {
  const solved = solveNetwork(compileNetwork(network));
  const emitters = new Set<number>();
  const isFixed = (node: number) => network.nodes[node]!.fixedPressure_Pa !== undefined;
  const elements = network.elements.map((element, i): NetworkElement => {
    const { id, from, to } = element;
    const flow = Math.max(Math.abs(solved.flow_m3s[i]!), 1e-7);
    const drop = Math.max(Math.abs(solved.pressure_Pa[from]! - solved.pressure_Pa[to]!), 1e-3);
    const square = (): NetworkElement => {
      // Of all squares with this loss take the one with C = 2.5, an opening of the right size.
      const area = flow * Math.sqrt((2.5 * network.air.density_kgm3) / (2 * Math.max(drop, leastDrop_Pa)));
      return { id, from, to, kind: 'square', coefficient: 2.5, area_m2: area };
    };
    switch (element.kind) {
      case 'duct': {
        if (element.length_m === 0) {
          return {
            id,
            from,
            to,
            kind: 'square',
            coefficient: Math.max(0.01, element.lossCoefficient),
            area_m2: element.area_m2,
          };
        }
        const area = (Math.PI / 4) * element.hydraulicDiameter_m ** 2;
        // Velocity pressure on the round area is larger: length and coefficients shrink in proportion.
        const ratio = (area / element.area_m2) ** 2;
        return {
          id,
          from,
          to,
          kind: 'duct',
          length_m: element.length_m * element.slackFactor * ratio,
          area_m2: area,
          hydraulicDiameter_m: element.hydraulicDiameter_m,
          roughness_m: element.roughness_m,
          lossCoefficient: Math.max(0, element.lossCoefficient) * ratio,
          slackFactor: 1,
        };
      }
      case 'square': {
        const coefficient = Math.max(0.01, element.coefficient);
        // Below a few millipascals each engine rounds the square law off in its own way, so wide doorways are narrowed.
        const area = flow * Math.sqrt((coefficient * network.air.density_kgm3) / (2 * leastDrop_Pa));
        return {
          id,
          from,
          to,
          kind: 'square',
          coefficient,
          area_m2: drop < leastDrop_Pa ? area : element.area_m2,
        };
      }
      case 'fan': {
        if (element.off) return square();
        let lowest = Number.POSITIVE_INFINITY;
        const falling = element.table.filter(([, rise]) => {
          const keep = rise < lowest;
          if (keep) lowest = rise;
          return keep;
        });
        return { id, from, to, kind: 'fan', table: withFourPoints(falling) };
      }
      case 'leak': {
        const free = isFixed(from) ? to : from;
        if (isFixed(from) === isFixed(to) || emitters.has(free)) return square();
        emitters.add(free);
        return {
          id,
          from,
          to,
          kind: 'leak',
          coefficient: flow / drop ** EMITTER_EXPONENT,
          exponent: EMITTER_EXPONENT,
        };
      }
      case 'power':
        return square();
      default:
        return element;
    }
  });
  return { nodes: network.nodes, elements, air: network.air, frictionLaw: 'swamee-jain' };
}

/** EPANET fits a power function to exactly three points: a fourth on the first piece keeps straight lines. */
function withFourPoints(
  table: readonly (readonly [number, number])[],
): readonly (readonly [number, number])[] {
  const [first, second] = table;
  if (table.length >= 4 || first === undefined || second === undefined) return table;
  const middle = [(first[0] + second[0]) / 2, (first[1] + second[1]) / 2] as const;
  return withFourPoints([first, middle, ...table.slice(1)]);
}
