import { same } from '../history/shape.ts';

/** Puts names that only `other` has behind the neighbour they follow there. */
const woven = (spine: readonly string[], other: readonly string[]): readonly string[] => {
  const result = [...spine];
  for (const [i, name] of other.entries()) {
    if (result.includes(name)) continue;
    const before = other[i - 1];
    result.splice(before === undefined ? 0 : result.indexOf(before) + 1, 0, name);
  }
  return result;
};

/**
 * Order of a merged list: that of the side which moved records, with the other side's new ones beside their
 * neighbours. When both moved records, mine holds: an order is how a list reads, not what it says.
 */
export const mergeOrder = (
  base: readonly string[],
  mine: readonly string[],
  theirs: readonly string[],
): readonly string[] => {
  const inMine = new Set(mine);
  const inBase = new Set(base);
  const moved = !same(
    base.filter((name) => inMine.has(name)),
    mine.filter((name) => inBase.has(name)),
  );
  return moved ? woven(mine, theirs) : woven(theirs, mine);
};
