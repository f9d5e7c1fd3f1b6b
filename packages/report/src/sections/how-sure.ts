import type { Fact, Survey } from '@airledger/engine';

const kinds = ['measured', 'read off', 'estimated', 'assumed'] as const;

/** How well the states of a house are known, in sentences; the survey is counted in the last of them. */
export const howSure = (
  states: readonly { readonly name: string; readonly survey: Survey }[],
): readonly string[] => {
  const facts = Object.values(states.at(-1)!.survey.facts);
  return [
    ...(facts.length > 0 ? [counted(facts)] : []),
    ...states.map(({ name, survey }) => `${name}: ${leakage(survey)}`),
    'Loads stand for the design hour, not for the year. Temperatures of rooms are predictions with the thermostat held in its own room; they show which room will complain and by how much, not what a thermometer will read on a given day.',
  ];
};

const counted = (facts: readonly Fact[]): string => {
  const defaults = facts.filter(({ defaulted }) => defaulted).length;
  const parts = kinds
    .map((kind) => ({
      kind,
      count: facts.filter(({ howKnown, defaulted }) => !defaulted && howKnown === kind).length,
    }))
    .filter(({ count }) => count > 0)
    .map(({ kind, count }) => `${count} ${kind}`);
  const ranges = facts.filter(({ low, high }) => low !== undefined && high !== undefined).length;
  return `The survey has ${facts.length} values: ${[...parts, `${defaults} filled in by default`].join(', ')}. ${ranges} of them ${ranges === 1 ? 'was' : 'were'} typed with a range. Figures here are worked out with the middle values; the ranges are not carried through.`;
};

const leakage = ({ leakageTests }: Survey): string => {
  const made = leakageTests.filter(({ howKnown }) => howKnown === 'measured');
  if (made.length === 0)
    return 'no duct leakage was measured; where each leak is and how large is the judgement of the surveyor, and the test after sealing decides.';
  const stages = [
    ...new Set(
      made.map(
        ({ stage, place, side }) =>
          `${stage}, ${place === 'total' ? 'total' : 'to outdoors'}, ${side === 'both' ? 'both sides' : `${side} side`}`,
      ),
    ),
  ];
  return `duct leakage was measured (${stages.join('; ')}). A test gives the sum; how it is spread over joints is the judgement of the surveyor.`;
};
