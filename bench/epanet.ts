import { InitHydOption, LinkProperty, NodeProperty, Project, Workspace } from 'epanet-js';
import type { Network, NetworkElement } from '../packages/engine/src/network/index.ts';

/**
 * EPANET, the public-domain solver of water networks, on an air network: the same balance and the same losses, with
 * air as the fluid. Head is pressure/(ρ·g) with the engine's own g.
 */
export type EpanetModel = {
  /** Solves from the start and leaves the flows in the engine. */
  solve(): void;
  /** Flow of each element, m³/s, in the order of the network. */
  flows(): Float64Array;
  /** Changes the fitting coefficient of a duct or square, the diameter of a duct, or the coefficient of a leak. */
  set(index: number, element: NetworkElement): void;
  close(): void;
};

/** g inside the engine, 32.2 ft/s². */
const GRAVITY = 32.2 * 0.3048;
/** The engine converts litres with 28.317 per cubic foot; the true value is 28.3168466. */
const LITRES = 1000 * (28.317 / 28.3168466);
/** The engine hard-codes 0.02517 for 8/(π²·32.2). */
const FITTING = 8 / (Math.PI ** 2 * 32.2) / 0.02517;
/** Length of the stub that carries the loss of an element without length, m (a zero is refused). */
const STUB = 1e-4;
const STUB_FRICTION = 0.02;
export const EMITTER_EXPONENT = 0.6;

/**
 * Loads a network of round ducts, squares, leaks with exponent 0.6 from free to fixed nodes (one at a node), fans
 * and table losses; see comparable.ts for how other networks are brought to that.
 */
export async function epanetModel(network: Network): Promise<EpanetModel> {
  const workspace = new Workspace();
  await workspace.loadModule();
  const project = new Project(workspace);
  workspace.writeFile('network.inp', inputFile(network));
  project.open('network.inp', 'report.rpt', 'out.bin');
  // Names that the package lacks would silently mean property 0.
  for (const property of [LinkProperty.Flow, LinkProperty.MinorLoss, LinkProperty.Diameter]) known(property);
  for (const property of [NodeProperty.Demand, NodeProperty.Emitter]) known(property);
  known(InitHydOption.InitFlow);
  project.openH();
  const links = network.elements.map((element, i) =>
    isLink(element) ? project.getLinkIndex(`E${i}`) : project.getNodeIndex(`N${freeEnd(network, element)}`),
  );
  const leakScale = LITRES * headScale(network) ** EMITTER_EXPONENT;
  return {
    solve() {
      // Pressures below zero are normal here; printing the engine's warning would be charged to its time.
      const { warn } = console;
      console.warn = () => {};
      project.initH(InitHydOption.InitFlow);
      project.runH();
      console.warn = warn;
    },
    flows() {
      return Float64Array.from(network.elements, (element, i) => {
        if (isLink(element)) return project.getLinkValue(links[i]!, LinkProperty.Flow) / LITRES;
        if (element.kind === 'fixed-flow') return element.flow_m3s;
        const outward = network.nodes[element.from]!.fixedPressure_Pa === undefined ? 1 : -1;
        const imposed = network.elements.reduce(
          (sum, other) => sum + demandAt(other, freeEnd(network, element)),
          0,
        );
        return outward * (project.getNodeValue(links[i]!, NodeProperty.Demand) / LITRES - imposed);
      });
    },
    set(index, element) {
      const link = links[index]!;
      if (element.kind === 'leak') {
        project.setNodeValue(link, NodeProperty.Emitter, element.coefficient * leakScale);
      } else if (element.kind === 'duct') {
        project.setLinkValue(link, LinkProperty.Diameter, element.hydraulicDiameter_m * 1000);
        project.setLinkValue(link, LinkProperty.MinorLoss, element.lossCoefficient * FITTING);
      } else if (element.kind === 'square') {
        project.setLinkValue(link, LinkProperty.MinorLoss, stubLoss(element.coefficient, element.area_m2));
      } else throw new Error(`can not change a ${element.kind} in EPANET`);
    },
    close() {
      project.closeH();
      project.close();
    },
  };
}

function known(property: number | undefined): void {
  if (property === undefined) throw new Error('the EPANET package lacks a property name');
}

const headScale = (network: Network) => network.air.density_kgm3 * GRAVITY;
const isLink = (element: NetworkElement) => element.kind !== 'leak' && element.kind !== 'fixed-flow';
const freeEnd = (network: Network, { from, to }: NetworkElement) =>
  network.nodes[from]!.fixedPressure_Pa === undefined ? from : to;
const demandAt = (element: NetworkElement, node: number) =>
  element.kind !== 'fixed-flow'
    ? 0
    : element.from === node
      ? element.flow_m3s
      : element.to === node
        ? -element.flow_m3s
        : 0;
const diameterOf = (area: number) => Math.sqrt((4 * area) / Math.PI);
const stubLoss = (coefficient: number, area: number) =>
  Math.max(0, coefficient - (STUB_FRICTION * STUB) / diameterOf(area)) * FITTING;

function inputFile(network: Network): string {
  const scale = headScale(network);
  const sections: Record<string, string[]> = {
    JUNCTIONS: [],
    RESERVOIRS: [],
    PIPES: [],
    PUMPS: [],
    VALVES: [],
    EMITTERS: [],
    CURVES: [],
  };
  const elevation = new Float64Array(network.nodes.length);
  network.elements.forEach((element, i) => {
    const { from, to } = element;
    const ends = `E${i} N${from} N${to}`;
    switch (element.kind) {
      case 'duct':
        sections.PIPES!.push(
          `${ends} ${element.length_m * element.slackFactor} ${element.hydraulicDiameter_m * 1000} ${element.roughness_m * 1000} ${element.lossCoefficient * FITTING} OPEN`,
        );
        break;
      case 'square':
        sections.PIPES!.push(
          `${ends} ${STUB} ${diameterOf(element.area_m2) * 1000} 0.0001 ${stubLoss(element.coefficient, element.area_m2)} OPEN`,
        );
        break;
      case 'fan':
        sections.PUMPS!.push(`${ends} HEAD C${i}`);
        for (const [flow, rise] of element.table)
          sections.CURVES!.push(`C${i} ${flow * LITRES} ${rise / scale}`);
        break;
      case 'table-loss':
        sections.VALVES!.push(`${ends} 1000 GPV C${i} 0`);
        for (const [flow, drop] of [[0, 0] as const, ...element.points]) {
          sections.CURVES!.push(`C${i} ${flow * LITRES} ${drop / scale}`);
        }
        break;
      case 'leak': {
        const free = freeEnd(network, element);
        const zone = free === from ? to : from;
        // An emitter discharges to its elevation: that is the zone's pressure.
        elevation[free] = network.nodes[zone]!.fixedPressure_Pa! / scale;
        const coefficient = element.coefficient * LITRES * scale ** EMITTER_EXPONENT;
        sections.EMITTERS!.push(`N${free} ${coefficient}`);
        break;
      }
      case 'fixed-flow':
        break;
      default:
        throw new Error(`EPANET has no ${element.kind}`);
    }
  });
  network.nodes.forEach((node, i) => {
    if (node.fixedPressure_Pa !== undefined) {
      sections.RESERVOIRS!.push(`N${i} ${node.fixedPressure_Pa / scale}`);
      return;
    }
    const demand = network.elements.reduce((sum, element) => sum + demandAt(element, i), 0);
    sections.JUNCTIONS!.push(`N${i} ${elevation[i]} ${demand * LITRES}`);
  });
  const body = Object.entries(sections).map(([name, lines]) => `[${name}]\n${lines.join('\n')}\n`);
  return `[TITLE]
air network
${body.join('\n')}
[TIMES]
DURATION 0
[OPTIONS]
UNITS LPS
HEADLOSS D-W
VISCOSITY ${network.air.kinematicViscosity_m2s}
EMITTER EXPONENT ${EMITTER_EXPONENT}
TRIALS 200
ACCURACY 0.00001
HEADERROR 0.0000001
FLOWCHANGE 0.000001
[REPORT]
STATUS NO
[END]
`;
}
