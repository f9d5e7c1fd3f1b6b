/** Ranks from 0, equal values sharing the mean of theirs. */
const ranksOf = (values: readonly number[]): readonly number[] => {
  const order = values.map((_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Array<number>(values.length).fill(0);
  for (let i = 0; i < order.length; ) {
    let j = i;
    while (j + 1 < order.length && values[order[j + 1]!] === values[order[i]!]) j++;
    for (let k = i; k <= j; k++) ranks[order[k]!] = (i + j) / 2;
    i = j + 1;
  }
  return ranks;
};

const correlation = (a: readonly number[], b: readonly number[]): number => {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    const [da, db] = [a[i]! - ma, b[i]! - mb];
    ab += da * db;
    aa += da * da;
    bb += db * db;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
};

/** Spearman's rank correlation; 0 when either does not vary. */
export const rankCorrelation = (a: readonly number[], b: readonly number[]): number =>
  correlation(ranksOf(a), ranksOf(b));

/**
 * Share of the variance that one input explains to first order: the squared rank correlation, less what chance gives a
 * sample of this size (adjusted R² of one regressor).
 */
export const explainedShare = (input: readonly number[], output: readonly number[]): number => {
  const n = input.length;
  return n < 4 ? 0 : Math.max(0, 1 - ((1 - rankCorrelation(input, output) ** 2) * (n - 1)) / (n - 2));
};

export const standardDeviation = (values: readonly number[]): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1),
  );
};
