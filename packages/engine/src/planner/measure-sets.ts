import type { MeasureSet, PlanProblem } from './types.ts';

/** What the sets of one problem may look like, worked out once. */
export type MeasureSets = {
  readonly count: number;
  /** Nothing but what must be done. */
  readonly least: MeasureSet;
  readonly costOf: (set: MeasureSet) => number;
  /** The set with one measure turned over: what excludes a measure that is taken goes. Undefined when locked or too dear. */
  readonly flipped: (set: MeasureSet, index: number) => MeasureSet | undefined;
  readonly isAllowed: (set: MeasureSet) => boolean;
};

export const isIn = (set: MeasureSet, index: number): boolean => set[index] === '1';

/** The set with one place rewritten. */
export const withMeasure = (set: MeasureSet, index: number, done: boolean): MeasureSet =>
  `${set.slice(0, index)}${done ? '1' : '0'}${set.slice(index + 1)}`;

/** Places in which two sets differ. */
export const differences = (a: MeasureSet, b: MeasureSet): number[] => {
  const places: number[] = [];
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) places.push(i);
  return places;
};

/** @throws RangeError when a lock names no measure, or two measures that must be done exclude each other. */
export const measureSets = ({
  measures,
  must = [],
  mustNot = [],
  besides = () => 0,
  budget,
}: Pick<PlanProblem, 'measures' | 'must' | 'mustNot' | 'besides' | 'budget'>): MeasureSets => {
  const places = new Map(measures.map(({ id }, index) => [id, index]));
  const placeOf = (id: string): number => {
    const place = places.get(id);
    if (place === undefined) throw new RangeError(`There is no measure "${id}".`);
    return place;
  };
  const excludes = measures.map(() => new Set<number>());
  measures.forEach(({ excludes: others = [] }, index) => {
    for (const id of others) {
      const other = places.get(id);
      if (other === undefined) continue;
      excludes[index]!.add(other);
      excludes[other]!.add(index);
    }
  });
  const wanted = new Set(must.map(placeOf));
  const locked = new Set([...wanted, ...mustNot.map(placeOf)]);
  for (const index of mustNot.map(placeOf))
    if (wanted.has(index)) throw new RangeError(`"${measures[index]!.id}" must be done and must not.`);
  const clashes = (set: MeasureSet): boolean =>
    measures.some((_, index) => isIn(set, index) && [...excludes[index]!].some((other) => isIn(set, other)));
  const least = measures.map((_, index) => (wanted.has(index) ? '1' : '0')).join('');
  if (clashes(least)) throw new RangeError('Measures that must be done exclude each other.');
  const costOf = (set: MeasureSet): number =>
    measures.reduce((sum, { cost }, index) => (isIn(set, index) ? sum + cost : sum), besides(set));
  const most = budget ?? Number.POSITIVE_INFINITY;
  const isAllowed = (set: MeasureSet): boolean =>
    [...locked].every((index) => set[index] === least[index]) && !clashes(set) && costOf(set) <= most;
  const flipped = (set: MeasureSet, index: number): MeasureSet | undefined => {
    if (isIn(set, index)) {
      const without = withMeasure(set, index, false);
      return locked.has(index) ? undefined : without;
    }
    let next = withMeasure(set, index, true);
    for (const other of excludes[index]!) if (isIn(next, other)) next = withMeasure(next, other, false);
    return isAllowed(next) ? next : undefined;
  };
  return { count: measures.length, least, costOf, flipped, isAllowed };
};
