import { compile, instantiate, StraightCode, type Where } from '../numerics/straight-code.ts';

/**
 * Factors small matrices of one pattern over and over: the order of elimination and every operation are found once and
 * compiled. No pivoting: for heat balances, whose diagonal outweighs each row. A house is mostly a star around its hall
 * and attic, so few operations are left.
 */
export type SparseFactor = {
  /** Places of the matrix (row·n + column) that the pattern or its fill may hold, and the entries of the matrix there. */
  readonly places: Int32Array;
  readonly entries: Float64Array;
  /** Which of the entries lie on the diagonal, by row. */
  readonly diagonal: Int32Array;
  /** Right sides, n values each, that become solutions. */
  readonly vectors: readonly Float64Array[];
  /** Factors the entries in place; each pivot is left as its inverse, which saves the divisions. */
  readonly factor: () => void;
  /** Solves with the factored matrix for one of the vectors, which becomes the solution. */
  readonly solve: (vector: Float64Array) => void;
};

/** Those used last: the planner runs hundreds of years of houses with one pattern. */
const kept = new Map<string, SparseFactor>();
const mostKept = 8;
/** A function longer than this, bytes, is gone on with in another: of very many places one would be too long for a browser. */
const longest_B = 1e6;

/**
 * The factor of a pattern. It is shared by all who ask for the same one, so whoever uses it fills the entries, factors
 * and solves in one go, and leaves nothing in it.
 *
 * @param pattern n × n, not 0 where any of the matrices is not 0; the diagonal always counts.
 * @param vectors how many right sides it has room for.
 */
export const sparseFactorOf = (pattern: ArrayLike<number>, n: number, vectors: number): SparseFactor => {
  const filled = Uint8Array.from({ length: n * n }, (_, k) =>
    pattern[k] !== 0 || Math.floor(k / n) === k % n ? 1 : 0,
  );
  const key = `${vectors} ${filled.join('')}`;
  const found = kept.get(key) ?? eliminate(filled, n, vectors);
  kept.delete(key);
  kept.set(key, found);
  if (kept.size > mostKept) kept.delete(kept.keys().next().value!);
  return found;
};

/** One step: the pivot, and what then is left in its column and its row. */
type Step = { readonly pivot: number; readonly rows: readonly number[]; readonly columns: readonly number[] };

/** Markowitz: next comes the pivot whose row and column are emptiest, which makes the least fill. Marks the fill. */
const orderOf = (filled: Uint8Array, n: number): Step[] => {
  const left = new Set(Array.from({ length: n }, (_, i) => i));
  const others = (at: (other: number) => number) => [...left].filter((other) => filled[at(other)] === 1);
  const steps: Step[] = [];
  while (left.size > 0) {
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
    for (const row of rows) for (const column of columns) filled[row * n + column] = 1;
    steps.push({ pivot, rows, columns });
  }
  return steps;
};

const eliminate = (filled: Uint8Array, n: number, vectors: number): SparseFactor => {
  const steps = orderOf(filled, n);
  const places = Int32Array.from([...filled.keys()].filter((k) => filled[k] === 1));
  const numbers = new Map([...places].map((place, entry) => [place, entry]));
  const entry = (row: number, column: number): Where => ({ memory: numbers.get(row * n + column)! });
  const factors = [new StraightCode()];
  const solve = new StraightCode();
  const value = (row: number): Where => ({ variable: row });
  for (let i = 0; i < n; i++) solve.move(value(i), { behind: i });
  for (const { pivot, rows, columns } of steps) {
    if (factors.at(-1)!.size_B > longest_B) factors.push(new StraightCode());
    const factor = factors.at(-1)!;
    const inverse: Where = { variable: 0 };
    const ratio: Where = { variable: 1 };
    factor.inverse(inverse, entry(pivot, pivot)).move(entry(pivot, pivot), inverse);
    for (const row of rows) {
      factor.product(ratio, entry(row, pivot), inverse).move(entry(row, pivot), ratio);
      for (const column of columns)
        factor.lessProduct(entry(row, column), entry(row, column), ratio, entry(pivot, column));
      solve.lessProduct(value(row), value(row), entry(row, pivot), value(pivot));
    }
  }
  for (const { pivot, columns } of steps.toReversed()) {
    for (const column of columns)
      solve.lessProduct(value(pivot), value(pivot), entry(pivot, column), value(column));
    solve.product(value(pivot), value(pivot), entry(pivot, pivot));
  }
  for (let i = 0; i < n; i++) solve.move({ behind: i }, value(i));
  const named = factors.map((code, part) => [`factor ${part}`, code] as const);
  const run = instantiate(compile({ ...Object.fromEntries(named), solve }, places.length + vectors * n));
  const parts = named.map(([name]) => run[name]!);
  const { buffer } = run.memory;
  const values = (at: number, length: number) =>
    new Float64Array(buffer, at * Float64Array.BYTES_PER_ELEMENT, length);
  return {
    places,
    entries: values(0, places.length),
    diagonal: Int32Array.from({ length: n }, (_, i) => numbers.get(i * n + i)!),
    vectors: Array.from({ length: vectors }, (_, v) => values(places.length + v * n, n)),
    factor: () => {
      for (const part of parts) part(0);
    },
    solve: (vector) => run.solve!(vector.byteOffset),
  };
};
