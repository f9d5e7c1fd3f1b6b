import type { Network, NetworkElement, Table } from './types.ts';

/** Throws RangeError naming the element and the field when a network can not be meant as written. */
export function checkNetwork(network: Network): void {
  const { density_kgm3, kinematicViscosity_m2s } = network.air;
  if (!(density_kgm3 > 0) || !(kinematicViscosity_m2s > 0)) {
    throw new RangeError('air: density and kinematic viscosity must be above zero');
  }
  for (const node of network.nodes) {
    if (node.fixedPressure_Pa !== undefined && !Number.isFinite(node.fixedPressure_Pa)) {
      throw new RangeError(`node '${node.id}': fixed pressure must be a finite number`);
    }
  }
  for (const element of network.elements) checkElement(element, network.elements, network.nodes.length);
}

/** The same for one element of a network. */
export function checkElement(
  element: NetworkElement,
  elements: readonly NetworkElement[],
  nodeCount: number,
): void {
  const fail = (what: string): never => {
    throw new RangeError(`element '${element.id}': ${what}`);
  };
  const atLeast = (name: string, value: number, least: number) => {
    if (!(value >= least && value < Number.POSITIVE_INFINITY)) {
      fail(`${name} must be a finite number of at least ${least}, got ${value}`);
    }
  };
  const above = (name: string, value: number, bound: number) => {
    if (!(value > bound && value < Number.POSITIVE_INFINITY)) {
      fail(`${name} must be a finite number above ${bound}, got ${value}`);
    }
  };
  const finite = (name: string, value: number) => {
    if (!Number.isFinite(value)) fail(`${name} must be a finite number, got ${value}`);
  };
  const nodeExists = (at: number) => Number.isInteger(at) && at >= 0 && at < nodeCount;
  if (!nodeExists(element.from) || !nodeExists(element.to)) fail('from and to must be nodes of the network');
  if (element.from === element.to) fail('both ends are the same node');
  if (element.density_kgm3 !== undefined) above('density_kgm3', element.density_kgm3, 0);
  const other = (name: string, at: number) => elements[at] ?? fail(`${name} names no element`);
  switch (element.kind) {
    case 'duct':
      atLeast('length_m', element.length_m, 0);
      above('area_m2', element.area_m2, 0);
      above('hydraulicDiameter_m', element.hydraulicDiameter_m, 0);
      atLeast('roughness_m', element.roughness_m, 0);
      finite('lossCoefficient', element.lossCoefficient);
      atLeast('slackFactor', element.slackFactor, 0);
      break;
    case 'square':
      finite('coefficient', element.coefficient);
      above('area_m2', element.area_m2, 0);
      break;
    case 'power':
      above('resistance', element.resistance, 0);
      if (!(element.exponent >= 1 && element.exponent < 3)) {
        fail(`exponent must be from 1 up to 3, got ${element.exponent}`);
      }
      break;
    case 'leak':
      atLeast('coefficient', element.coefficient, 0);
      if (!(element.exponent > 1 / 3 && element.exponent <= 1)) {
        fail(`exponent must be above 1/3 and at most 1, got ${element.exponent}`);
      }
      if (element.staticOf !== undefined && !('area_m2' in other('staticOf', element.staticOf))) {
        fail('staticOf must name an element with an area');
      }
      break;
    case 'table-loss':
      checkTable(element.points, fail);
      if (!element.points.some(([flow]) => flow > 0)) fail('the table needs a point with a flow above zero');
      if (element.points.some(([, drop], i) => drop < (element.points[i - 1]?.[1] ?? 0))) {
        fail('the drops of the table must rise with the flow, from zero');
      }
      break;
    case 'fan':
      checkTable(element.table, fail);
      if (element.control !== undefined) atLeast('control flow_m3s', element.control.flow_m3s, 0);
      break;
    case 'fixed-flow':
      finite('flow_m3s', element.flow_m3s);
      break;
  }
  if (element.junction !== undefined) {
    other('junction', element.junction.common);
    above('junction ownArea_m2', element.junction.ownArea_m2, 0);
    above('junction commonArea_m2', element.junction.commonArea_m2, 0);
  }
}

function checkTable(points: Table, fail: (what: string) => never): void {
  if (points.length === 0) fail('the table is empty');
  points.forEach(([flow, pressure], i) => {
    if (!Number.isFinite(flow) || !Number.isFinite(pressure))
      fail('the table holds a number that is not finite');
    if (i > 0 && flow <= points[i - 1]![0]) fail('the flows of the table must rise');
  });
}
