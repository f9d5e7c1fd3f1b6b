import { differences, isIn, withMeasure } from './measure-sets.ts';
import type { Evaluated, MeasureSet } from './types.ts';

/** What has been evaluated, and what it says of sets that have not. */
export type Memory = {
  readonly all: () => Iterable<Evaluated>;
  readonly get: (set: MeasureSet) => Evaluated | undefined;
  readonly add: (one: Evaluated) => void;
  /** Figures that a set should have, judged from one that is known. */
  readonly predictor: (from: Evaluated) => (set: MeasureSet) => readonly number[];
};

/** A difference of figures, and the set at which it was seen (without the measures it is of). */
type Seen = { readonly at: MeasureSet; readonly figures: readonly number[] };

const minus = (a: readonly number[], b: readonly number[]): number[] => a.map((value, k) => value - b[k]!);

/** What was seen nearest to a set. */
const nearest = (seen: readonly Seen[] | undefined, set: MeasureSet): readonly number[] | undefined => {
  let best: Seen | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const one of seen ?? []) {
    const away = differences(one.at, set).length;
    if (away <= least) {
      least = away;
      best = one;
    }
  }
  return best?.figures;
};

/**
 * Memory of a search. Each evaluation that is one measure away from another tells what that measure does there; four
 * around a square tell how two measures act on each other. A prediction adds to known figures what each changed measure
 * did, and what each changed pair did to each other, at the nearest set at which it was seen.
 */
export const memory = (count: number): Memory => {
  const known = new Map<MeasureSet, Evaluated>();
  const alone: Seen[][] = Array.from({ length: count }, () => []);
  const together = new Map<number, Seen[]>();

  const learnPair = (set: MeasureSet, i: number, j: number): void => {
    const [none, first, second, both] = [
      [false, false],
      [true, false],
      [false, true],
      [true, true],
    ].map(([a, b]) => known.get(withMeasure(withMeasure(set, i, a!), j, b!)));
    if (!none || !first || !second || !both) return;
    const figures = both.figures.map(
      (value, k) => value - first.figures[k]! - second.figures[k]! + none.figures[k]!,
    );
    const seen = together.get(i * count + j) ?? [];
    seen.push({ at: none.set, figures });
    together.set(i * count + j, seen);
  };

  const add = (one: Evaluated): void => {
    known.set(one.set, one);
    const neighbours: number[] = [];
    for (let i = 0; i < count; i++) {
      const other = known.get(withMeasure(one.set, i, !isIn(one.set, i)));
      if (!other) continue;
      neighbours.push(i);
      const [on, off] = isIn(one.set, i) ? [one, other] : [other, one];
      alone[i]!.push({ at: off.set, figures: minus(on.figures, off.figures) });
    }
    neighbours.forEach((i, n) => {
      for (const j of neighbours.slice(n + 1)) learnPair(one.set, i, j);
    });
  };

  const predictor = (from: Evaluated) => {
    const ones = alone.map((seen) => nearest(seen, from.set));
    const pairs = new Map<number, readonly number[] | undefined>();
    const pairOf = (i: number, j: number): readonly number[] | undefined => {
      const key = i * count + j;
      if (!pairs.has(key)) pairs.set(key, nearest(together.get(key), from.set));
      return pairs.get(key);
    };
    return (set: MeasureSet): readonly number[] => {
      const changed = differences(from.set, set);
      const figures = [...from.figures];
      const addTimes = (sign: number, more: readonly number[] | undefined): void => {
        if (more) for (let k = 0; k < figures.length; k++) figures[k]! += sign * more[k]!;
      };
      const signOf = (i: number): number => (isIn(set, i) ? 1 : -1);
      changed.forEach((i, n) => {
        addTimes(signOf(i), ones[i]);
        for (const j of changed.slice(n + 1)) addTimes(signOf(i) * signOf(j), pairOf(i, j));
      });
      return figures;
    };
  };

  return { all: () => known.values(), get: (set) => known.get(set), add, predictor };
};
