import { minimumDegree } from './minimum-degree.ts';

/**
 * The pattern of a sparse L·D·Lᵀ factorisation, worked out once; the numbers live in arrays of the caller.
 * Unknowns are numbered by elimination step throughout.
 */
export type LdlPattern = {
  readonly size: number;
  /** position[node] is the elimination step of a node of the original numbering. */
  readonly position: Int32Array;
  /** Column k of L holds rows row[start[k]] … row[start[k+1]−1], ascending. */
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** The first `leaves` pivots have at most one row each and get a loop of their own. */
  readonly leaves: number;
  /** Where each update lands, in the order in which the numeric loop meets them; absent when too long. */
  readonly target: Int32Array | undefined;
};

/** Above this many updates the list of targets would cost more memory than looking each one up costs time. */
const LONGEST_TARGET_LIST = 20_000_000;

/** Orders a symmetric pattern by minimum degree and lays out its factor. `edges` as in minimumDegree. */
export function ldlPattern(size: number, edges: Int32Array): LdlPattern {
  const { order, columns } = minimumDegree(size, edges);
  const position = new Int32Array(size);
  for (let k = 0; k < size; k++) position[order[k]!] = k;
  const start = new Int32Array(size + 1);
  let updates = 0;
  for (let k = 0; k < size; k++) {
    const length = columns[k]!.length;
    start[k + 1] = start[k]! + length;
    updates += (length * (length - 1)) / 2;
  }
  const row = new Int32Array(start[size]!);
  for (let k = 0; k < size; k++) {
    const from = start[k]!;
    columns[k]!.forEach((node, i) => {
      row[from + i] = position[node]!;
    });
    if (start[k + 1]! - from > 1) row.subarray(from, start[k + 1]!).sort();
  }
  let leaves = 0;
  while (leaves < size && start[leaves + 1]! - start[leaves]! <= 1) leaves++;
  const target = updates <= LONGEST_TARGET_LIST ? targetList(size, start, row, updates) : undefined;
  return { size, position, start, row, leaves, target };
}

function targetList(size: number, start: Int32Array, row: Int32Array, updates: number): Int32Array {
  const target = new Int32Array(updates);
  const where = new Int32Array(size);
  let at = 0;
  for (let k = 0; k < size; k++) {
    const end = start[k + 1]!;
    for (let p = start[k]!; p < end - 1; p++) {
      const column = row[p]!;
      for (let q = start[column]!; q < start[column + 1]!; q++) where[row[q]!] = q;
      for (let q = p + 1; q < end; q++) target[at++] = where[row[q]!]!;
    }
  }
  return target;
}

/** Index in the lower triangle of the entry that couples steps a and b, or −1 when the pattern has none. */
export function entryIndex(pattern: LdlPattern, a: number, b: number): number {
  const column = Math.min(a, b);
  const wanted = Math.max(a, b);
  let low = pattern.start[column]!;
  let high = pattern.start[column + 1]! - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = pattern.row[middle]!;
    if (found === wanted) return middle;
    if (found < wanted) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}

/**
 * Factorises in place and solves for one right-hand side, which is carried through the elimination.
 * On entry `diagonal` and `lower` hold the matrix; on exit the inverse pivots and L. `right` is spoilt.
 */
export function factorAndSolve(
  pattern: LdlPattern,
  diagonal: Float64Array,
  lower: Float64Array,
  right: Float64Array,
  solution: Float64Array,
): void {
  const { size, start, row, leaves, target } = pattern;
  for (let k = 0; k < leaves; k++) {
    const p = start[k]!;
    const inverse = 1 / diagonal[k]!;
    diagonal[k] = inverse;
    if (p < start[k + 1]!) {
      const i = row[p]!;
      const value = lower[p]!;
      const factor = value * inverse;
      lower[p] = factor;
      diagonal[i] = diagonal[i]! - factor * value;
      right[i] = right[i]! - factor * right[k]!;
    }
  }
  if (target === undefined) eliminateByLookup(pattern, diagonal, lower, right);
  else {
    let at = 0;
    for (let k = leaves; k < size; k++) {
      const end = start[k + 1]!;
      const inverse = 1 / diagonal[k]!;
      const rightK = right[k]!;
      diagonal[k] = inverse;
      for (let p = start[k]!; p < end; p++) {
        const i = row[p]!;
        const value = lower[p]!;
        const factor = value * inverse;
        lower[p] = factor;
        diagonal[i] = diagonal[i]! - factor * value;
        right[i] = right[i]! - factor * rightK;
        for (let q = p + 1; q < end; q++) {
          const place = target[at++]!;
          lower[place] = lower[place]! - factor * lower[q]!;
        }
      }
    }
  }
  backSubstitute(pattern, diagonal, lower, right, solution);
}

/** The same elimination for patterns too dense for a list of targets. */
function eliminateByLookup(
  pattern: LdlPattern,
  diagonal: Float64Array,
  lower: Float64Array,
  right: Float64Array,
): void {
  const { size, start, row, leaves } = pattern;
  const where = new Int32Array(size);
  for (let k = leaves; k < size; k++) {
    const end = start[k + 1]!;
    const inverse = 1 / diagonal[k]!;
    diagonal[k] = inverse;
    for (let p = start[k]!; p < end; p++) {
      const i = row[p]!;
      const value = lower[p]!;
      const factor = value * inverse;
      lower[p] = factor;
      diagonal[i] = diagonal[i]! - factor * value;
      right[i] = right[i]! - factor * right[k]!;
      for (let q = start[i]!; q < start[i + 1]!; q++) where[row[q]!] = q;
      for (let q = p + 1; q < end; q++) {
        const place = where[row[q]!]!;
        lower[place] = lower[place]! - factor * lower[q]!;
      }
    }
  }
}

/** Solves for a further right-hand side with the factor left by factorAndSolve. `right` is spoilt. */
export function solveWithFactor(
  pattern: LdlPattern,
  inversePivots: Float64Array,
  lower: Float64Array,
  right: Float64Array,
  solution: Float64Array,
): void {
  const { size, start, row } = pattern;
  for (let k = 0; k < size; k++) {
    const rightK = right[k]!;
    if (rightK === 0) continue;
    const end = start[k + 1]!;
    for (let p = start[k]!; p < end; p++) {
      const i = row[p]!;
      right[i] = right[i]! - lower[p]! * rightK;
    }
  }
  backSubstitute(pattern, inversePivots, lower, right, solution);
}

/**
 * aᵀM⁻¹a for a = e_from − e_to with the factor left by factorAndSolve: how far a unit of flow from one unknown to the
 * other parts them. Only the two paths up the elimination tree are walked.
 *
 * @param from, to steps; those at or above the size are grounded
 * @param work zeros, one for each row; left as zeros
 */
export function resistanceBetween(
  { size, start, row }: LdlPattern,
  inversePivots: Float64Array,
  lower: Float64Array,
  from: number,
  to: number,
  work: Float64Array,
): number {
  let a = from;
  let b = to;
  if (a < size) work[a] = 1;
  if (b < size) work[b] = -1;
  let sum = 0;
  for (let k = Math.min(a, b); k < size; k = Math.min(a, b)) {
    const value = work[k]!;
    work[k] = 0;
    sum += value * value * inversePivots[k]!;
    const begin = start[k]!;
    const end = start[k + 1]!;
    for (let p = begin; p < end; p++) {
      const i = row[p]!;
      work[i] = work[i]! - lower[p]! * value;
    }
    const parent = begin < end ? row[begin]! : size;
    if (a === k) a = parent;
    if (b === k) b = parent;
  }
  return sum;
}

function backSubstitute(
  pattern: LdlPattern,
  inversePivots: Float64Array,
  lower: Float64Array,
  right: Float64Array,
  solution: Float64Array,
): void {
  const { size, start, row } = pattern;
  for (let k = size - 1; k >= 0; k--) {
    const end = start[k + 1]!;
    let value = right[k]! * inversePivots[k]!;
    for (let p = start[k]!; p < end; p++) value -= lower[p]! * solution[row[p]!]!;
    solution[k] = value;
  }
}
