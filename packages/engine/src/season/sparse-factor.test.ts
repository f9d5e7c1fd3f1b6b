import { describe, expect, it } from 'vitest';
import { solveDense } from '../numerics/dense.ts';
import { seededRandom } from '../numerics/seeded-random.ts';
import { sparseFactorOf } from './sparse-factor.ts';

/** A matrix whose diagonal outweighs each row, with this share of its other places filled, not symmetric. */
const balance = (n: number, share: number, random: () => number): Float64Array => {
  const matrix = Float64Array.from({ length: n * n }, () => (random() < share ? -random() : 0));
  for (let i = 0; i < n; i++) matrix[i * n + i] = 1 + n * random() + n;
  return matrix;
};

describe('the factor of a pattern', () => {
  for (const [n, share] of [
    [1, 0],
    [2, 1],
    [12, 0],
    [18, 0.3],
    [18, 1],
    [45, 0.1],
    [100, 1],
  ] as const)
    it(`solves ${n} places with ${100 * share} % of their pairs tied as full elimination does`, () => {
      const random = seededRandom(n + 100 * share);
      const matrix = balance(n, share, random);
      const sparse = sparseFactorOf(matrix, n, 2);
      for (const times of [1, 3]) {
        sparse.places.forEach((place, entry) => {
          sparse.entries[entry] = times * matrix[place]!;
        });
        sparse.factor();
        for (const vector of sparse.vectors) {
          const right = Float64Array.from({ length: n }, () => 10 * random() - 5);
          vector.set(right);
          sparse.solve(vector);
          const exact = solveDense(
            matrix.map((value) => times * value),
            right,
          );
          for (let i = 0; i < n; i++) expect(vector[i]).toBeCloseTo(exact[i]!, 13);
        }
      }
    });

  it('says where the diagonal lies, so that it can be added to', () => {
    const n = 7;
    const { places, diagonal } = sparseFactorOf(balance(n, 0.4, seededRandom(1)), n, 1);
    expect([...diagonal].map((entry) => places[entry])).toEqual(
      Array.from({ length: n }, (_, i) => i * n + i),
    );
  });

  it('is one for one pattern, and another for another', () => {
    const pattern = [1, 1, 0, 1];
    expect(sparseFactorOf(pattern, 2, 1)).toBe(sparseFactorOf([5, 2, 0, 3], 2, 1));
    expect(sparseFactorOf(pattern, 2, 1)).not.toBe(sparseFactorOf([1, 0, 1, 1], 2, 1));
  });
});
