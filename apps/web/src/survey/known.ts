import type { Fact, HowKnown, Survey } from '@airledger/engine';

/** How many values of the survey are known in which way. */
export type KnownCounts = Readonly<Record<HowKnown, number>> & { readonly all: number };

export const countKnown = (facts: Survey['facts']): KnownCounts => {
  const counts = { measured: 0, 'read off': 0, estimated: 0, assumed: 0, all: 0 };
  for (const fact of Object.values(facts)) {
    counts[fact.howKnown]++;
    counts.all++;
  }
  return counts;
};

/** "84 of 91 known": assumed values are the ones that are not. */
export const surveyInBrief = (survey: Survey): string => {
  const { all, assumed } = countKnown(survey.facts);
  return `${all - assumed} of ${all} known`;
};

export type FactLine = { readonly path: string; readonly fact: Fact };

/** Facts that are known in one way, or all, by path. */
export const factLines = (facts: Survey['facts'], howKnown: HowKnown | 'all'): FactLine[] =>
  Object.entries(facts)
    .filter(([, fact]) => howKnown === 'all' || fact.howKnown === howKnown)
    .map(([path, fact]) => ({ path, fact }))
    .toSorted((a, b) => a.path.localeCompare(b.path, 'en', { numeric: true }));
