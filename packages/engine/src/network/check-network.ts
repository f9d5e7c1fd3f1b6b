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
  const { id, from, to } = element;
  if (!isNode(from, nodeCount) || !isNode(to, nodeCount))
    fail(id, 'from and to must be nodes of the network');
  if (from === to) fail(id, 'both ends are the same node');
  if (element.density_kgm3 !== undefined) above(id, 'density_kgm3', element.density_kgm3, 0);
  switch (element.kind) {
    case 'duct':
      atLeast(id, 'length_m', element.length_m, 0);
      above(id, 'area_m2', element.area_m2, 0);
      above(id, 'hydraulicDiameter_m', element.hydraulicDiameter_m, 0);
      atLeast(id, 'roughness_m', element.roughness_m, 0);
      finite(id, 'lossCoefficient', element.lossCoefficient);
      atLeast(id, 'slackFactor', element.slackFactor, 0);
      break;
    case 'square':
      finite(id, 'coefficient', element.coefficient);
      above(id, 'area_m2', element.area_m2, 0);
      break;
    case 'power':
      above(id, 'resistance', element.resistance, 0);
      if (!(element.exponent >= 1 && element.exponent < 3)) {
        fail(id, `exponent must be from 1 up to 3, got ${element.exponent}`);
      }
      break;
    case 'leak':
      atLeast(id, 'coefficient', element.coefficient, 0);
      if (!(element.exponent > 1 / 3 && element.exponent <= 1)) {
        fail(id, `exponent must be above 1/3 and at most 1, got ${element.exponent}`);
      }
      if (element.staticOf !== undefined) checkStaticOf(id, elements[element.staticOf]);
      break;
    case 'table-loss':
      checkTable(id, element.points);
      if (!element.points.some(([flow]) => flow > 0))
        fail(id, 'the table needs a point with a flow above zero');
      if (element.points.some(([, drop], i) => drop < (element.points[i - 1]?.[1] ?? 0))) {
        fail(id, 'the drops of the table must rise with the flow, from zero');
      }
      break;
    case 'fan':
      checkTable(id, element.table);
      if (element.control !== undefined) atLeast(id, 'control flow_m3s', element.control.flow_m3s, 0);
      break;
    case 'fixed-flow':
      finite(id, 'flow_m3s', element.flow_m3s);
      break;
  }
  if (element.junction !== undefined) {
    if (elements[element.junction.common] === undefined) fail(id, 'junction names no element');
    above(id, 'junction ownArea_m2', element.junction.ownArea_m2, 0);
    above(id, 'junction commonArea_m2', element.junction.commonArea_m2, 0);
  }
}

function isNode(at: number, nodeCount: number): boolean {
  return Number.isInteger(at) && at >= 0 && at < nodeCount;
}

function checkStaticOf(id: string, duct: NetworkElement | undefined): void {
  if (duct === undefined || !('area_m2' in duct)) fail(id, 'staticOf must name an element with an area');
}

function checkTable(id: string, points: Table): void {
  if (points.length === 0) fail(id, 'the table is empty');
  points.forEach(([flow, pressure], i) => {
    if (!Number.isFinite(flow) || !Number.isFinite(pressure))
      fail(id, 'the table holds a number that is not finite');
    if (i > 0 && flow <= points[i - 1]![0]) fail(id, 'the flows of the table must rise');
  });
}

function atLeast(id: string, name: string, value: number, least: number): void {
  if (!(value >= least && value < Number.POSITIVE_INFINITY)) {
    fail(id, `${name} must be a finite number of at least ${least}, got ${value}`);
  }
}

function above(id: string, name: string, value: number, bound: number): void {
  if (!(value > bound && value < Number.POSITIVE_INFINITY)) {
    fail(id, `${name} must be a finite number above ${bound}, got ${value}`);
  }
}

function finite(id: string, name: string, value: number): void {
  if (!Number.isFinite(value)) fail(id, `${name} must be a finite number, got ${value}`);
}

function fail(id: string, what: string): never {
  throw new RangeError(`element '${id}': ${what}`);
}
