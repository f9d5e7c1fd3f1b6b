import { fallingEnvelope, freeFlow, hasDip, type PieceTable, pieceTable } from './fan-law.ts';
import { blendCoefficients, inverseRoot } from './friction.ts';
import { cubicFoot } from './leak-law.ts';
import { RECORD } from './record.ts';
import type { FanLaw, FrictionLaw, NetworkAir, NetworkElement, Table, TableLossLaw } from './types.ts';

const {
  BY_PRESSURE,
  DUCT_FITTING,
  DUCT_FRICTION,
  DUCT_REYNOLDS,
  DUCT_ROOT,
  DUCT_ROUGHNESS,
  FIXED_FLOW,
  FOOT,
  FOOT_CUBIC,
  FOOT_LINEAR,
  KIND_DUCT,
  KIND_FIXED,
  KIND_POWER,
  KIND_SQUARE,
  KIND_TABLE,
  KIND_TIGHT,
  EXPONENT,
  POWER_LOG_COEFFICIENT,
  SQUARE_INVERSE,
  SQUARE_RESISTANCE,
  START,
  START_PRESSURE,
  START_SPEED,
  STRIDE,
  TABLE_HELD_FLOW,
  TABLE_PIECE,
  TABLE_SWITCH,
} = RECORD;

/** What an element becomes for the solver, apart from the numbers in its record. */
export type ElementKind =
  | typeof KIND_DUCT
  | typeof KIND_SQUARE
  | typeof KIND_POWER
  | typeof KIND_TABLE
  | typeof KIND_FIXED
  | typeof KIND_TIGHT;

/** Which kernel evaluates an element. Frictionless ducts are squares, a leak of nothing lets nothing through. */
export function elementKind(element: NetworkElement): ElementKind {
  switch (element.kind) {
    case 'duct':
      return element.length_m * element.slackFactor === 0 ? KIND_SQUARE : KIND_DUCT;
    case 'square':
      return KIND_SQUARE;
    case 'power':
      return KIND_POWER;
    case 'leak':
      return element.coefficient === 0 ? KIND_TIGHT : KIND_POWER;
    case 'table-loss':
      return KIND_TABLE;
    case 'fan':
      return element.off ? KIND_SQUARE : KIND_TABLE;
    case 'fixed-flow':
      return KIND_FIXED;
  }
}

/** Network density over the element's own: the factor on every drop for the same mass flow. */
export function densityRatio(element: NetworkElement, air: NetworkAir): number {
  return element.density_kgm3 === undefined ? 1 : air.density_kgm3 / element.density_kgm3;
}

/**
 * The part of a loss coefficient that makes a drop fall with the flow, as Pa/(m³/s)², never positive. It is kept
 * out of the element's own law, which stays monotone, and added as a cross term (cross-terms.ts).
 */
export function fallingResistance(element: NetworkElement, air: NetworkAir): number {
  if (element.kind === 'duct') return squareResistance(element, Math.min(0, element.lossCoefficient), air);
  if (element.kind === 'square') return squareResistance(element, Math.min(0, element.coefficient), air);
  return 0;
}

function squareResistance(
  element: NetworkElement & { readonly area_m2: number },
  coefficient: number,
  air: NetworkAir,
): number {
  return (
    (densityRatio(element, air) * coefficient * air.density_kgm3) / (2 * element.area_m2 * element.area_m2)
  );
}

/**
 * Writes the parameters of an element into its record; the common fields are left to the solver.
 *
 * @param blend receives the four coefficients of the laminar–turbulent cubic at 4·index (ducts)
 * @returns the table of a fan (as drop, that is −rise) or of a table loss
 */
export function writeRecord(
  element: NetworkElement,
  air: NetworkAir,
  frictionLaw: FrictionLaw,
  records: Float64Array,
  index: number,
  blend: Float64Array,
): PieceTable | undefined {
  const at = index * STRIDE;
  records.fill(0, at + BY_PRESSURE, at + STRIDE);
  const ratio = densityRatio(element, air);
  switch (element.kind) {
    case 'duct': {
      const fitting = squareResistance(element, Math.max(0, element.lossCoefficient), air);
      if (elementKind(element) === KIND_SQUARE) {
        writeSquare(records, at, fitting);
        return;
      }
      const { area_m2: area, hydraulicDiameter_m: diameter } = element;
      const relative = element.roughness_m / diameter;
      records[at + DUCT_FRICTION] = squareResistance(
        element,
        (element.slackFactor * element.length_m) / diameter,
        air,
      );
      records[at + DUCT_FITTING] = fitting;
      // Mass flow and viscosity decide the Reynolds number: it does not change with the density ratio.
      records[at + DUCT_REYNOLDS] = diameter / (area * air.kinematicViscosity_m2s);
      records[at + DUCT_ROUGHNESS] = relative / 3.7;
      records[at + DUCT_ROOT] = inverseRoot(50_000, relative, frictionLaw);
      const root = records[at + DUCT_ROOT]!;
      const secant = START_SPEED * area * (records[at + DUCT_FRICTION]! / (root * root) + fitting);
      records[at + START] = 1 / secant;
      const cubic = blendCoefficients(relative, frictionLaw);
      for (let i = 0; i < 4; i++) blend[4 * index + i] = cubic[i]!;
      return;
    }
    case 'square':
      writeSquare(records, at, squareResistance(element, Math.max(0, element.coefficient), air));
      return;
    case 'power':
      writePower(records, at, element.resistance * ratio, element.exponent);
      return;
    case 'leak':
      if (element.coefficient > 0) {
        const exponent = 1 / element.exponent;
        writePower(records, at, ratio * element.coefficient ** -exponent, exponent);
      }
      return;
    case 'table-loss':
      return writeLossTable(records, at, element, ratio);
    case 'fan':
      return writeFan(records, at, element, ratio);
    case 'fixed-flow':
      records[at + FIXED_FLOW] = element.flow_m3s;
      return;
  }
}

function writeSquare(records: Float64Array, at: number, resistance: number): void {
  records[at + SQUARE_RESISTANCE] = resistance;
  records[at + EXPONENT] = 2;
  if (resistance === 0) {
    // A foot without end that stays flat; not quite zero, for it divides.
    records[at + FOOT] = Number.POSITIVE_INFINITY;
    records[at + FOOT_LINEAR] = Number.MIN_VALUE;
    records[at + START] = 1;
    return;
  }
  records[at + SQUARE_INVERSE] = 1 / resistance;
  writeFoot(records, at, resistance, 2);
  records[at + START] = Math.sqrt(START_PRESSURE / resistance) / START_PRESSURE;
}

function writePower(records: Float64Array, at: number, resistance: number, exponent: number): void {
  records[at + EXPONENT] = exponent;
  records[at + POWER_LOG_COEFFICIENT] = -Math.log(resistance) / exponent;
  writeFoot(records, at, resistance, exponent);
  records[at + START] = (START_PRESSURE / resistance) ** (1 / exponent) / START_PRESSURE;
}

function writeFoot(records: Float64Array, at: number, resistance: number, exponent: number): void {
  const foot = cubicFoot(resistance, exponent);
  records[at + FOOT] = foot.flow;
  records[at + FOOT_LINEAR] = foot.linear;
  records[at + FOOT_CUBIC] = foot.cubic;
}

function writeLossTable(records: Float64Array, at: number, element: TableLossLaw, ratio: number): PieceTable {
  const side = element.points.filter(([flow]) => flow > 0);
  const last = side[side.length - 1]!;
  records[at + TABLE_HELD_FLOW] = Number.POSITIVE_INFINITY;
  records[at + START] = last[0] / Math.max(last[1] * ratio, START_PRESSURE);
  return pieceTable([
    ...[...side].reverse().map(([flow, drop]) => [-flow, -drop * ratio] as const),
    [0, 0],
    ...side.map(([flow, drop]) => [flow, drop * ratio] as const),
  ]);
}

function writeFan(
  records: Float64Array,
  at: number,
  element: FanLaw & NetworkElement,
  ratio: number,
): PieceTable | undefined {
  const curve = fanCurve(element, ratio);
  const free = freeFlow(curve);
  const shutOff = Math.max(...curve.map(([, rise]) => rise));
  const secant = free > 0 && shutOff > 0 ? free / shutOff : 1;
  if (element.off) {
    writeSquare(records, at, 1 / (secant * free));
    return;
  }
  const table = pieceTable(fallingEnvelope(curve).map(([flow, rise]) => [flow, -rise] as const));
  records[at + TABLE_PIECE] = 0;
  records[at + TABLE_HELD_FLOW] = element.control?.flow_m3s ?? Number.POSITIVE_INFINITY;
  records[at + TABLE_SWITCH] = secant;
  records[at + START] = secant;
  return table;
}

/** The fan's table at its own density (fan laws), flows counted at the network's density. */
export function fanCurve(element: FanLaw, ratio: number): Table {
  return element.table.map(([flow, rise]) => [flow / ratio, rise / ratio] as const);
}

/** The falling and the true drop of a fan with a stall dip, or undefined for a plain fan. */
export function dipTables(
  element: NetworkElement,
  air: NetworkAir,
): { readonly envelope: PieceTable; readonly raw: PieceTable } | undefined {
  if (element.kind !== 'fan' || element.off || !hasDip(element.table)) return undefined;
  const curve = fanCurve(element, densityRatio(element, air));
  return { envelope: pieceTable(fallingEnvelope(curve)), raw: pieceTable(curve) };
}
