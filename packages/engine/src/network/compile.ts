import { entryIndex, ldlPattern } from '../numerics/ldl.ts';
import { unionFind } from '../numerics/union-find.ts';
import { checkElement, checkNetwork } from './check-network.ts';
import { type CrossTerms, crossTerms } from './cross-terms.ts';
import { elementKind, writeRecord } from './element-law.ts';
import { hasDip } from './fan-law.ts';
import { inverseRoot } from './friction.ts';
import { meetNetwork } from './meet-network.ts';
import { passOne, SUMS } from './pass.ts';
import { RECORD } from './record.ts';
import { measureBend, type StepState } from './second-order.ts';
import type { FrictionLaw, Network, NetworkAir, NetworkElement } from './types.ts';

const {
  BENDS,
  CONDUCTANCE,
  DUCT_REYNOLDS,
  DUCT_ROOT,
  ENTRY,
  FIXED_FLOW,
  FLOW,
  FROM,
  KIND,
  KIND_DUCT,
  KIND_FIXED,
  KIND_POWER,
  KIND_SQUARE,
  KIND_TABLE,
  KIND_TIGHT,
  LINKS,
  OFFSET,
  BY_PRESSURE,
  POWER_INVERSE_BASE,
  SLOPE,
  SOURCE,
  SQUARE_INVERSE,
  START,
  START_PRESSURE,
  STEP,
  STRIDE,
  TABLE_NUMBER,
  TO,
} = RECORD;

/** A network made ready for solving. Its insides belong to the solver; edit it only through the functions here. */
export type CompiledNetwork = StepState & {
  readonly network: Network;
  readonly air: NetworkAir;
  readonly frictionLaw: FrictionLaw;
  /** The elements as edited so far. */
  readonly elements: NetworkElement[];
  /** Step number of each node: free nodes in elimination order, then the fixed ones. */
  readonly step: Int32Array;
  readonly tables: Float64Array[];
  /** Element of each record and record of each element (−1: takes no part). */
  readonly source: Int32Array;
  readonly place: Int32Array;
  /** Sum of the starting conductances at each node, from which small leaks are told. */
  readonly nodeStart: Float64Array;
  /** Net flow into each node, for the check of continuity. */
  readonly balance: Float64Array;
  /** Fans with a stall dip. */
  dipFans: number[];
  /** Free nodes that no path joins to a fixed pressure, by step. */
  closedNodes: Int32Array;
  setAside: number[];
  /** Number of records that take part. */
  active: number;
  cross: CrossTerms | undefined;
  /** Largest flow at 10 Pa: the residual's scale never falls far below it. */
  largestStart: number;
  /** Largest error of continuity when the latest solve ended, m³/s. */
  imbalance: number;
  /** Whether flows and pressures of an earlier solve are there to start from. */
  solved: boolean;
  /** Whether the linear system in store starts from the present flows, ready to be factorised. */
  assembled: boolean;
  /** Whether small openings have been switched to the flow side by a hard solve. */
  allByFlow: boolean;
};

/** Leaks below this share of the conductance at each of their free ends are linearised from the pressure side. */
const SMALL_LEAK = 0.1;

/**
 * Checks a network and works out once what depends only on its shape: elimination order, factor pattern, buffers.
 * @throws RangeError when an element can not be meant as written
 */
export function compileNetwork(network: Network): CompiledNetwork {
  checkNetwork(network);
  const { nodes, elements } = network;
  const step = new Int32Array(nodes.length).fill(-1);
  let free = 0;
  nodes.forEach((node, i) => {
    if (node.fixedPressure_Pa === undefined) step[i] = free++;
  });
  const edges: number[] = [];
  for (const { from, to } of elements) {
    if (step[from]! >= 0 && step[to]! >= 0) edges.push(step[from]!, step[to]!);
  }
  const pattern = ldlPattern(free, Int32Array.from(edges));
  let fixed = free;
  for (let i = 0; i < nodes.length; i++) step[i] = step[i]! >= 0 ? pattern.position[step[i]!]! : fixed++;
  const count = elements.length;
  const compiled: CompiledNetwork = {
    network,
    air: network.air,
    frictionLaw: network.frictionLaw ?? 'colebrook',
    elements: [...elements],
    pattern,
    step,
    tables: [],
    source: new Int32Array(count),
    place: new Int32Array(count),
    nodeStart: new Float64Array(nodes.length),
    balance: new Float64Array(nodes.length),
    dipFans: [],
    closedNodes: new Int32Array(0),
    setAside: [],
    active: 0,
    cross: undefined,
    largestStart: 0,
    imbalance: 0,
    solved: false,
    assembled: false,
    allByFlow: false,
    records: new Float64Array(count * STRIDE),
    links: new Int32Array(count * LINKS),
    bends: new Float64Array(count * BENDS),
    kindStart: new Int32Array(KIND_TIGHT + 1),
    blend: new Float64Array(count * 4),
    colebrook: (network.frictionLaw ?? 'colebrook') === 'colebrook',
    head: new Float64Array(nodes.length),
    headStep: new Float64Array(nodes.length),
    diagonal: new Float64Array(nodes.length),
    lower: new Float64Array(pattern.row.length + 1),
    right: new Float64Array(nodes.length),
    pivots: new Float64Array(nodes.length),
    factor: new Float64Array(pattern.row.length + 1),
    bend: new Float64Array(nodes.length),
    path: new Float64Array(nodes.length),
    sums: new Float64Array(SUMS),
  };
  nodes.forEach((node, i) => {
    compiled.head[step[i]!] = node.fixedPressure_Pa ?? 0;
  });
  layOut(compiled);
  return compiled;
}

/**
 * Replaces one element between the same two nodes. The next solve starts from the present flows; remembered
 * logarithms and powers of the element are dropped with its old record.
 *
 * @param index position of the element in the network
 * @throws RangeError when the new element joins other nodes or can not be meant as written
 */
export function editElement(compiled: CompiledNetwork, index: number, element: NetworkElement): void {
  editElements(compiled, [[index, element]]);
}

/**
 * Replaces several elements as `editElement` does one: if records must be laid out anew, that is done once for all.
 *
 * @throws RangeError as `editElement` does; elements before the faulty one are then replaced already
 */
export function editElements(
  compiled: CompiledNetwork,
  edits: readonly (readonly [index: number, element: NetworkElement])[],
): void {
  let inPlace = true;
  for (const [index, element] of edits) {
    const before = compiled.elements[index];
    if (before === undefined) throw new RangeError(`no element ${index} in this network`);
    if (element.from !== before.from || element.to !== before.to) {
      throw new RangeError(`element '${element.id}': an edit can not move an element to other nodes`);
    }
    checkElement(element, compiled.elements, compiled.step.length);
    compiled.elements[index] = element;
    if (compiled.place[index]! < 0 || elementKind(element) !== elementKind(before)) inPlace = false;
    else if (compiled.cross === undefined) inPlace &&= !hasCrossTerm(element);
    else inPlace &&= keepsCrossTerms(compiled, index, before, element);
  }
  if (!inPlace) layOut(compiled);
  else for (const [index, element] of edits) patchRecord(compiled, compiled.place[index]!, element);
}

function hasCrossTerm(element: NetworkElement): boolean {
  return (
    element.junction !== undefined ||
    (element.kind === 'leak' && element.staticOf !== undefined) ||
    hasFallingLaw(element)
  );
}

/** Whether its drop may fall with its own flow: a fan's dip, a negative loss coefficient. */
function hasFallingLaw(element: NetworkElement): boolean {
  return (
    element.kind === 'fan' ||
    (element.kind === 'duct' && element.lossCoefficient < 0) ||
    (element.kind === 'square' && element.coefficient < 0)
  );
}

/** Whether an edit leaves all that cross terms are made of: tees, velocity pressure behind leaks, falling laws. */
function keepsCrossTerms(
  { elements }: CompiledNetwork,
  index: number,
  before: NetworkElement,
  after: NetworkElement,
): boolean {
  const area = (element: NetworkElement) => ('area_m2' in element ? element.area_m2 : 0);
  return (
    before.junction === after.junction &&
    before.density_kgm3 === after.density_kgm3 &&
    (before.kind === 'leak' ? before.staticOf : 0) === (after.kind === 'leak' ? after.staticOf : 0) &&
    !hasFallingLaw(before) &&
    !hasFallingLaw(after) &&
    (area(before) === area(after) ||
      !elements.some((element) => element.kind === 'leak' && element.staticOf === index))
  );
}

/** Swaps one record's part of the assembled system, which spares the next solve a pass over the network. */
function patchRecord(compiled: CompiledNetwork, record: number, element: NetworkElement): void {
  const { records, links, diagonal, lower, right, nodeStart } = compiled;
  const at = record * STRIDE;
  const link = record * LINKS;
  const from = links[link + FROM]!;
  const to = links[link + TO]!;
  const conductance = records[at + CONDUCTANCE]!;
  const source = records[at + SOURCE]!;
  const start = records[at + START]!;
  diagonal[from] = diagonal[from]! - conductance;
  diagonal[to] = diagonal[to]! - conductance;
  right[from] = right[from]! + source;
  right[to] = right[to]! - source;
  const entry = links[link + ENTRY]!;
  lower[entry] = lower[entry]! + conductance;
  const table = records[at + TABLE_NUMBER]!;
  writeLaw(compiled, record, element);
  if (links[link + KIND] === KIND_TABLE) {
    compiled.tables[table] = compiled.tables.pop()!;
    records[at + TABLE_NUMBER] = table;
  }
  nodeStart[from] = nodeStart[from]! + records[at + START]! - start;
  nodeStart[to] = nodeStart[to]! + records[at + START]! - start;
  chooseSide(compiled, record);
  compiled.largestStart = Math.max(compiled.largestStart, records[at + START]! * START_PRESSURE);
  if (!compiled.assembled) return;
  holdFlow(records, at);
  const kind = links[link + KIND]!;
  // From the pressure side the flow is nearly right already: such an element hardly moves the pressure it has.
  const isNear = (kind === KIND_SQUARE || kind === KIND_POWER) && records[at + BY_PRESSURE] === 1;
  if (kind <= KIND_POWER && !isNear) meetNetwork(compiled, kind, record, conductance);
  passOne(compiled, kind, record);
  measureBend(compiled, kind, record);
}

/** Makes the next pass find the record at the flow it has now. */
export function holdFlow(records: Float64Array, at: number): void {
  records[at + SOURCE] = records[at + FLOW]!;
  records[at + CONDUCTANCE] = 0;
}

function writeLaw(compiled: CompiledNetwork, record: number, element: NetworkElement): void {
  const { records, links, blend, air, frictionLaw, tables } = compiled;
  const at = record * STRIDE;
  const table = writeRecord(element, air, frictionLaw, records, record, blend);
  if (table !== undefined) {
    records[at + TABLE_NUMBER] = tables.length;
    tables.push(table);
  }
  const flow = records[at + FLOW]!;
  if (links[record * LINKS + KIND] === KIND_DUCT && flow !== 0 && element.kind === 'duct') {
    const reynolds = Math.abs(flow) * records[at + DUCT_REYNOLDS]!;
    const relative = element.roughness_m / element.hydraulicDiameter_m;
    if (reynolds > 4000) records[at + DUCT_ROOT] = inverseRoot(reynolds, relative, frictionLaw);
  }
}

/** Squares and powers that their nodes hardly notice (leaks, dampers almost shut) take their flow from the pressure. */
function chooseSide(compiled: CompiledNetwork, record: number): void {
  const { records, links, nodeStart, pattern } = compiled;
  const at = record * STRIDE;
  const link = record * LINKS;
  const isPower = links[link + KIND] === KIND_POWER;
  const isSquare = links[link + KIND] === KIND_SQUARE && records[at + SQUARE_INVERSE]! > 0;
  if (!isPower && !isSquare) return;
  const start = records[at + START]!;
  const from = links[link + FROM]!;
  const to = links[link + TO]!;
  const small =
    (from >= pattern.size || start < SMALL_LEAK * nodeStart[from]!) &&
    (to >= pattern.size || start < SMALL_LEAK * nodeStart[to]!);
  setSide(compiled, record, small ? 1 : 0);
}

/** Sets the side; the remembered point of a power belongs to a pressure or to a flow and is dropped with the side. */
export function setSide({ records, links }: CompiledNetwork, record: number, byPressure: 0 | 1): void {
  const at = record * STRIDE;
  if (records[at + BY_PRESSURE] === byPressure) return;
  records[at + BY_PRESSURE] = byPressure;
  if (links[record * LINKS + KIND] === KIND_POWER) records[at + POWER_INVERSE_BASE] = 0;
}

/** Decides anew, for every small opening, from which side it is linearised. */
export function restoreSides(compiled: CompiledNetwork): void {
  for (let record = 0; record < compiled.active; record++) {
    chooseSide(compiled, record);
  }
  compiled.allByFlow = false;
}

/** Fills the records from the elements, sorted by kernel and elimination step. Flows are carried over. */
function layOut(compiled: CompiledNetwork): void {
  const { elements, records, links, step, pattern, source, place } = compiled;
  const count = elements.length;
  const flows = new Float64Array(count);
  for (let record = 0; record < compiled.active; record++) {
    flows[source[record]!] = records[record * STRIDE + FLOW]!;
  }
  findClosedParts(compiled);
  const isAside = new Uint8Array(count);
  for (const index of compiled.setAside) isAside[index] = 1;
  const kinds = Int32Array.from(elements, (element, i) => (isAside[i] ? KIND_TIGHT : elementKind(element)));
  const key = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const { from, to } = elements[i]!;
    // One number that sorts by kernel, then by place in memory, and carries the element.
    key[i] = (kinds[i]! * step.length + Math.min(step[from]!, step[to]!)) * count + i;
  }
  key.sort();
  compiled.tables.length = 0;
  compiled.nodeStart.fill(0);
  compiled.largestStart = 0;
  compiled.active = 0;
  place.fill(-1);
  for (let record = 0; record < count; record++) {
    const index = key[record]! % count;
    const element = elements[index]!;
    source[record] = index;
    const at = record * STRIDE;
    const link = record * LINKS;
    const from = step[element.from]!;
    const to = step[element.to]!;
    const bothFree = from < pattern.size && to < pattern.size;
    links[link + FROM] = from;
    links[link + TO] = to;
    links[link + ENTRY] = bothFree ? entryIndex(pattern, from, to) : pattern.row.length;
    links[link + KIND] = kinds[index]!;
    records[at + FLOW] = flows[index]!;
    records[at + STEP] = 0;
    records[at + SLOPE] = 0;
    records[at + OFFSET] = 0;
    writeLaw(compiled, record, element);
    holdFlow(records, at);
    if (kinds[index] === KIND_TIGHT) {
      records[at + FLOW] = 0;
      continue;
    }
    place[index] = record;
    compiled.active = record + 1;
    const start = records[at + START]!;
    compiled.nodeStart[from] = compiled.nodeStart[from]! + start;
    compiled.nodeStart[to] = compiled.nodeStart[to]! + start;
    const flowScale =
      kinds[index] === KIND_FIXED ? Math.abs(records[at + FIXED_FLOW]!) : start * START_PRESSURE;
    compiled.largestStart = Math.max(compiled.largestStart, flowScale);
  }
  for (let kind = 0, record = 0; kind <= KIND_TIGHT; kind++) {
    compiled.kindStart[kind] = record;
    while (record < count && links[record * LINKS + KIND] === kind) record++;
  }
  restoreSides(compiled);
  compiled.dipFans = [];
  elements.forEach((element, i) => {
    if (place[i]! >= 0 && element.kind === 'fan' && !element.off && hasDip(element.table))
      compiled.dipFans.push(i);
  });
  compiled.cross = crossTerms(elements, compiled.air, place, step.length);
  compiled.assembled = false;
}

/** Finds nodes without a path to a fixed pressure; tight joints and imposed flows carry no pressure. */
function findClosedParts(compiled: CompiledNetwork): void {
  const { elements, network, step } = compiled;
  const parts = unionFind(network.nodes.length);
  for (const element of elements) {
    const kind = elementKind(element);
    if (kind !== KIND_FIXED && kind !== KIND_TIGHT) parts.join(element.from, element.to);
  }
  const held = new Uint8Array(network.nodes.length);
  network.nodes.forEach((node, i) => {
    if (node.fixedPressure_Pa !== undefined) held[parts.find(i)] = 1;
  });
  const isClosed = (node: number) => held[parts.find(node)] === 0;
  compiled.closedNodes = step.filter((_, node) => isClosed(node));
  compiled.setAside = [];
  elements.forEach((element, i) => {
    if (isClosed(element.from) || isClosed(element.to)) compiled.setAside.push(i);
  });
}
