/**
 * Factors small matrices of one pattern over and over: the order of elimination and every operation are found once.
 * No pivoting: for heat balances, whose diagonal outweighs each row. A house is mostly a star around its hall and
 * attic, so few operations are left.
 */
export class SparseFactor {
  /** Places of the matrix (row·n + column) that the pattern or its fill may hold. */
  readonly places: Int32Array;
  /** By pivot: its place, rows below, columns right; then for each row its place and pairs (place to change, place in the pivot's row). */
  private readonly program: Int32Array;
  /** Forward: (row, place, pivot) each. Backward, last pivot first: pivot, its place, columns; then pairs (column, place). */
  private readonly forward: Int32Array;
  private readonly backward: Int32Array;

  /** @param pattern n × n, not 0 where any of the matrices is not 0; the diagonal always counts. */
  constructor(pattern: ArrayLike<number>, n: number) {
    const filled = Uint8Array.from({ length: n * n }, (_, k) =>
      pattern[k] !== 0 || Math.floor(k / n) === k % n ? 1 : 0,
    );
    const left = new Set(Array.from({ length: n }, (_, i) => i));
    const program: number[] = [];
    const forward: number[] = [];
    const backward: number[][] = [];
    const others = (at: (other: number) => number) => [...left].filter((other) => filled[at(other)] === 1);
    while (left.size > 0) {
      // Markowitz: the pivot whose row and column are emptiest makes the least fill.
      let pivot = -1;
      let least = Number.POSITIVE_INFINITY;
      for (const one of left) {
        const work = others((row) => row * n + one).length * others((column) => one * n + column).length;
        if (work < least) {
          least = work;
          pivot = one;
        }
      }
      left.delete(pivot);
      const rows = others((row) => row * n + pivot);
      const columns = others((column) => pivot * n + column);
      program.push(pivot * n + pivot, rows.length, columns.length);
      backward.unshift([
        pivot,
        pivot * n + pivot,
        columns.length,
        ...columns.flatMap((column) => [column, pivot * n + column]),
      ]);
      for (const row of rows) {
        forward.push(row, row * n + pivot, pivot);
        program.push(row * n + pivot);
        for (const column of columns) {
          program.push(row * n + column, pivot * n + column);
          filled[row * n + column] = 1;
        }
      }
    }
    this.program = Int32Array.from(program);
    this.forward = Int32Array.from(forward);
    this.backward = Int32Array.from(backward.flat());
    this.places = Int32Array.from([...filled.keys()].filter((k) => filled[k] === 1));
  }

  /** Factors in place; each pivot is left as its inverse, which saves the divisions. */
  factor(matrix: Float64Array): void {
    const { program } = this;
    for (let at = 0; at < program.length; ) {
      const inverse = 1 / matrix[program[at]!]!;
      matrix[program[at]!] = inverse;
      const rows = program[at + 1]!;
      const columns = program[at + 2]!;
      at += 3;
      for (let row = 0; row < rows; row++) {
        const ratio = matrix[program[at]!]! * inverse;
        matrix[program[at]!] = ratio;
        at++;
        for (let k = 0; k < columns; k++, at += 2) matrix[program[at]!]! -= ratio * matrix[program[at + 1]!]!;
      }
    }
  }

  /** Solves with a factored matrix; the right side becomes the solution. */
  solve(matrix: Float64Array, values: Float64Array): void {
    const { forward, backward } = this;
    for (let at = 0; at < forward.length; at += 3)
      values[forward[at]!]! -= matrix[forward[at + 1]!]! * values[forward[at + 2]!]!;
    for (let at = 0; at < backward.length; ) {
      const pivot = backward[at]!;
      const inverse = matrix[backward[at + 1]!]!;
      const columns = backward[at + 2]!;
      at += 3;
      let sum = values[pivot]!;
      for (let k = 0; k < columns; k++, at += 2) sum -= matrix[backward[at + 1]!]! * values[backward[at]!]!;
      values[pivot] = sum * inverse;
    }
  }
}
