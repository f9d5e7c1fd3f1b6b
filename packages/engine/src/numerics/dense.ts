/**
 * Solves A·x = b by Gaussian elimination with partial pivoting, for the small systems of rooms and zones.
 * @param matrix n × n in row order; overwritten.
 * @param rightSide n values; overwritten with the solution, and returned.
 * @throws RangeError when the matrix is singular to rounding.
 */
export function solveDense(matrix: Float64Array, rightSide: Float64Array): Float64Array {
  const n = rightSide.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++)
      if (Math.abs(matrix[row * n + column]!) > Math.abs(matrix[pivot * n + column]!)) pivot = row;
    if (!(Math.abs(matrix[pivot * n + column]!) > 1e-300))
      throw new RangeError(`singular at unknown ${column}`);
    if (pivot !== column) {
      for (let k = column; k < n; k++) {
        const kept = matrix[column * n + k]!;
        matrix[column * n + k] = matrix[pivot * n + k]!;
        matrix[pivot * n + k] = kept;
      }
      const kept = rightSide[column]!;
      rightSide[column] = rightSide[pivot]!;
      rightSide[pivot] = kept;
    }
    for (let row = column + 1; row < n; row++) {
      const factor = matrix[row * n + column]! / matrix[column * n + column]!;
      if (factor === 0) continue;
      for (let k = column + 1; k < n; k++) matrix[row * n + k]! -= factor * matrix[column * n + k]!;
      rightSide[row]! -= factor * rightSide[column]!;
    }
  }
  for (let row = n - 1; row >= 0; row--) {
    let sum = rightSide[row]!;
    for (let k = row + 1; k < n; k++) sum -= matrix[row * n + k]! * rightSide[k]!;
    rightSide[row] = sum / matrix[row * n + row]!;
  }
  return rightSide;
}
