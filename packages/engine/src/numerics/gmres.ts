/** Buffers of gmres, made once and used again. */
export type GmresWorkspace = {
  readonly basis: readonly Float64Array[];
  readonly hessenberg: Float64Array;
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
  readonly residual: Float64Array;
};

/** Room for `steps` search directions of a system of `size` unknowns. */
export function gmresWorkspace(size: number, steps: number): GmresWorkspace {
  return {
    basis: Array.from({ length: steps + 1 }, () => new Float64Array(size)),
    hessenberg: new Float64Array((steps + 1) * (steps + 1)),
    cosine: new Float64Array(steps),
    sine: new Float64Array(steps),
    residual: new Float64Array(steps + 1),
  };
}

/**
 * Generalised minimal residual method (Saad & Schultz 1986) without restart, from a zero start.
 * Solves apply(x) = right to a relative residual of `tolerance` or as well as the workspace allows.
 *
 * @param apply writes the product of the matrix with its first argument into its second
 * @param solution receives x
 * @returns the relative residual reached
 */
export function gmres(
  apply: (input: Float64Array, output: Float64Array) => void,
  right: Float64Array,
  solution: Float64Array,
  tolerance: number,
  work: GmresWorkspace,
): number {
  const size = right.length;
  const steps = Math.min(work.basis.length - 1, size);
  const width = work.basis.length;
  const { basis, hessenberg: h, cosine, sine, residual } = work;
  solution.fill(0);
  const norm = length(right);
  if (norm === 0) return 0;
  const first = basis[0]!;
  for (let i = 0; i < size; i++) first[i] = right[i]! / norm;
  residual.fill(0);
  residual[0] = norm;
  let used = 0;
  for (let k = 0; k < steps; k++) {
    const next = basis[k + 1]!;
    apply(basis[k]!, next);
    for (let j = 0; j <= k; j++) {
      const direction = basis[j]!;
      let dot = 0;
      for (let i = 0; i < size; i++) dot += direction[i]! * next[i]!;
      h[j * width + k] = dot;
      for (let i = 0; i < size; i++) next[i] = next[i]! - dot * direction[i]!;
    }
    const rest = length(next);
    for (let i = 0; i < size && rest > 0; i++) next[i] = next[i]! / rest;
    for (let j = 0; j < k; j++) {
      const upper = h[j * width + k]!;
      const below = h[(j + 1) * width + k]!;
      h[j * width + k] = cosine[j]! * upper + sine[j]! * below;
      h[(j + 1) * width + k] = cosine[j]! * below - sine[j]! * upper;
    }
    const pivot = h[k * width + k]!;
    const radius = Math.hypot(pivot, rest);
    if (radius === 0) break;
    cosine[k] = pivot / radius;
    sine[k] = rest / radius;
    h[k * width + k] = radius;
    h[(k + 1) * width + k] = 0;
    residual[k + 1] = -sine[k]! * residual[k]!;
    residual[k] = cosine[k]! * residual[k]!;
    used = k + 1;
    if (Math.abs(residual[used]!) <= tolerance * norm || rest === 0) break;
  }
  // Back substitution overwrites `residual` with the weights; its next entry is the remaining error.
  const remaining = Math.abs(residual[used]!) / norm;
  for (let k = used - 1; k >= 0; k--) {
    let weight = residual[k]!;
    for (let j = k + 1; j < used; j++) weight -= h[k * width + j]! * residual[j]!;
    weight /= h[k * width + k]!;
    residual[k] = weight;
    const direction = basis[k]!;
    for (let i = 0; i < size; i++) solution[i] = solution[i]! + weight * direction[i]!;
  }
  return remaining;
}

function length(vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += vector[i]! * vector[i]!;
  return Math.sqrt(sum);
}
