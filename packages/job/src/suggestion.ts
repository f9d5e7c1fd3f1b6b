const distance = (a: string, b: string): number => {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + Number(a[i - 1] !== b[j - 1])));
    row = next;
  }
  return row[b.length]!;
};

/** The known word closest to what was typed, when it is close enough to be a slip. */
const nearest = (typed: string, known: Iterable<string>): string | undefined => {
  let best: string | undefined;
  let least = Math.max(2, Math.floor(typed.length / 3)) + 1;
  for (const word of known) {
    const steps = distance(typed.toLowerCase(), word.toLowerCase());
    if (steps < least) [best, least] = [word, steps];
  }
  return best;
};

/** "Did you mean …?" or the other advice. */
export const suggestion = (typed: string, known: Iterable<string>, otherwise: string): string => {
  const word = nearest(typed, known);
  return word === undefined ? otherwise : `Did you mean "${word}"?`;
};
