/** Something that can be found and done. */
export type Finding = {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly act: () => void;
};

/** Findings whose name holds every word that was typed, those that begin with it first. */
export const search = (findings: readonly Finding[], typed: string, most = 12): Finding[] => {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const score = ({ name, kind }: Finding): number => {
    const text = `${name} ${kind}`.toLowerCase();
    if (!words.every((word) => text.includes(word))) return -1;
    return words.reduce(
      (sum, word) => sum + (text.startsWith(word) ? 2 : text.includes(` ${word}`) ? 1 : 0),
      0,
    );
  };
  return findings
    .map((finding) => ({ finding, points: score(finding) }))
    .filter(({ points }) => points >= 0)
    .toSorted((a, b) => b.points - a.points)
    .slice(0, most)
    .map(({ finding }) => finding);
};
