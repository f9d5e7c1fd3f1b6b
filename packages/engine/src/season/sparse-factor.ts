/**
 * Factors small matrices of one pattern over and over: the order of elimination and every operation are found once.
 * No pivoting: for heat balances, whose diagonal outweighs each row. A house is mostly a star around its hall and
 * attic, so few operations are left.
 */
export class SparseFactor {
  /** Places of the matrix (row·n + column) that the pattern or its fill may hold. */
  readonly places: Int32Array;
  private readonly n: number;
  private readonly order: Int32Array;
  /** Operations: place to divide, pivot's place, count, then pairs (place to change, place in the pivot's row). */
  private readonly program: Int32Array;
  /** By pivot in order: the rows below and the columns right of it, each as start in `below` or `right`. */
  private readonly below: readonly Int32Array[];
  private readonly right: readonly Int32Array[];

  /** @param pattern n × n, not 0 where any of the matrices is not 0; the diagonal always counts. */
  constructor(pattern: ArrayLike<number>, n: number) {
    const filled = Uint8Array.from({ length: n * n }, (_, k) =>
      pattern[k] !== 0 || Math.floor(k / n) === k % n ? 1 : 0,
    );
    const left = new Set(Array.from({ length: n }, (_, i) => i));
    const order: number[] = [];
    const program: number[] = [];
    const below: Int32Array[] = [];
    const right: Int32Array[] = [];
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
      order.push(pivot);
      below.push(Int32Array.from(rows));
      right.push(Int32Array.from(columns));
      for (const row of rows) {
        program.push(row * n + pivot, pivot * n + pivot, columns.length);
        for (const column of columns) {
          program.push(row * n + column, pivot * n + column);
          filled[row * n + column] = 1;
        }
      }
    }
    this.n = n;
    this.order = Int32Array.from(order);
    this.program = Int32Array.from(program);
    this.below = below;
    this.right = right;
    this.places = Int32Array.from([...filled.keys()].filter((k) => filled[k] === 1));
  }

  /** Factors in place. @throws RangeError when a pivot is nought. */
  factor(matrix: Float64Array): void {
    const { program } = this;
    for (let at = 0; at < program.length; ) {
      const divided = program[at]!;
      const count = program[at + 2]!;
      const ratio = matrix[divided]! / matrix[program[at + 1]!]!;
      matrix[divided] = ratio;
      at += 3;
      for (const end = at + 2 * count; at < end; at += 2)
        matrix[program[at]!]! -= ratio * matrix[program[at + 1]!]!;
    }
  }

  /** Solves with a factored matrix; the right side becomes the solution. */
  solve(matrix: Float64Array, values: Float64Array): void {
    const { n, order, below, right } = this;
    for (let k = 0; k < n; k++) {
      const pivot = order[k]!;
      const value = values[pivot]!;
      const rows = below[k]!;
      for (let i = 0; i < rows.length; i++) values[rows[i]!]! -= matrix[rows[i]! * n + pivot]! * value;
    }
    for (let k = n - 1; k >= 0; k--) {
      const pivot = order[k]!;
      const columns = right[k]!;
      let sum = values[pivot]!;
      for (let i = 0; i < columns.length; i++) sum -= matrix[pivot * n + columns[i]!]! * values[columns[i]!]!;
      values[pivot] = sum / matrix[pivot * n + pivot]!;
    }
  }
}
