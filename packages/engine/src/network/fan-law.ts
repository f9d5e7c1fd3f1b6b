import type { Table } from './types.ts';

/** Straight pieces [flow, value, slope to the next point] in threes; the last slope repeats the one before. */
export type PieceTable = Float64Array;

/** Pieces of a table; a single point is a constant. */
export function pieceTable(points: Table): PieceTable {
  const table = new Float64Array(3 * points.length);
  points.forEach(([flow, value], i) => {
    table[3 * i] = flow;
    table[3 * i + 1] = value;
  });
  for (let i = 0; i + 1 < points.length; i++) {
    table[3 * i + 2] = (table[3 * i + 4]! - table[3 * i + 1]!) / (table[3 * i + 3]! - table[3 * i]!);
  }
  if (points.length > 1) table[table.length - 1] = table[table.length - 4]!;
  return table;
}

/** Index (0, 3, 6 …) of the piece that holds `flow`, walking from where the last search ended. */
export function findPiece(table: PieceTable, flow: number, from: number): number {
  const last = Math.max(0, table.length - 6);
  let piece = from;
  while (piece < last && flow > table[piece + 3]!) piece += 3;
  while (piece > 0 && flow < table[piece]!) piece -= 3;
  return piece;
}

/** Value of the table at a flow, end pieces extended. */
export function tableValue(table: PieceTable, flow: number): number {
  const piece = findPiece(table, flow, 0);
  return table[piece + 1]! + table[piece + 2]! * (flow - table[piece]!);
}

/** Slope of the table at a flow, end pieces extended. */
export function tableSlope(table: PieceTable, flow: number): number {
  return table[findPiece(table, flow, 0) + 2]!;
}

/** Whether the rise climbs anywhere with the flow (the stall dip of a forward-curved wheel). */
export function hasDip(points: Table): boolean {
  return points.some((point, i) => i > 0 && point[1] > points[i - 1]![1]);
}

/**
 * The lowest falling curve on or above the table. It agrees with the table on the stable side of a dip, so a
 * solve on it ends on the stable branch if there is one.
 */
export function fallingEnvelope(points: Table): Table {
  const envelope: [number, number][] = [];
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = points.length - 1; i >= 0; i--) {
    const [flow, rise] = points[i]!;
    const next = points[i + 1];
    if (next !== undefined && rise > highest && next[1] < highest) {
      // The table climbs out of the shadow of the higher point inside this piece.
      const share = (highest - next[1]) / (rise - next[1]);
      envelope.unshift([next[0] + share * (flow - next[0]), highest]);
    }
    highest = Math.max(highest, rise);
    envelope.unshift([flow, highest]);
  }
  return envelope;
}

/** Flow at which the rise of a falling table reaches zero; the last piece is extended if it has to be. */
export function freeFlow(points: Table): number {
  for (let i = 0; i + 1 < points.length; i++) {
    const [flow, rise] = points[i]!;
    const [nextFlow, nextRise] = points[i + 1]!;
    const isLast = i + 2 === points.length;
    if (nextRise <= 0 || (isLast && nextRise < rise)) {
      return flow + (rise * (nextFlow - flow)) / (rise - nextRise);
    }
  }
  return points[points.length - 1]![0];
}

/**
 * How many working points a table has on the system line through the present one. The system is taken as
 * rise·(Q/Q₀)^m with the exponent of its local slope, which is exact for a system that passes through zero, or
 * as the tangent when that makes no sense (an opposing pressure).
 *
 * @param slope local slope of everything outside the fan, Pa·s/m³
 */
export function workingPoints(points: Table, flow: number, rise: number, slope: number): number {
  const exponent = (slope * flow) / rise;
  const throughZero = flow > 0 && rise > 0 && exponent >= 1 && exponent <= 3;
  const system = (at: number) =>
    throughZero ? rise * Math.sign(at) * Math.abs(at / flow) ** exponent : rise + slope * (at - flow);
  const table = pieceTable(points);
  const low = Math.min(points[0]![0], 0);
  const high = 1.5 * Math.max(points[points.length - 1]![0], flow);
  const samples = 400;
  let crossings = 0;
  let before = tableValue(table, low) - system(low);
  for (let i = 1; i <= samples; i++) {
    const at = low + ((high - low) * i) / samples;
    const gap = tableValue(table, at) - system(at);
    if (before > 0 !== gap > 0) crossings++;
    before = gap;
  }
  return crossings;
}
