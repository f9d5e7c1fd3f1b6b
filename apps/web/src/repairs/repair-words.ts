import {
  type Goal,
  nearlyMet,
  type PlannedSet,
  type Range,
  type RepairPlan,
  type RepairProgress,
} from '@airledger/job';
import type { Format } from '../figure/format.ts';

export const money = (amount: number): string =>
  `${amount < -0.5 ? '−' : ''}$${Math.abs(Math.round(amount)).toLocaleString('en-US')}`;

export const moneyRange = ({ low, typical, high }: Range): string =>
  `${money(typical)} (${money(low)} to ${money(high)})`;

export const goalWords: readonly { readonly value: Goal['kind']; readonly words: string }[] = [
  { value: 'rooms', words: 'Rooms within tolerance' },
  { value: 'life-cycle', words: 'Least cost over the years' },
  { value: 'comfort', words: 'Most comfort for a budget' },
  { value: 'code', words: 'Pass the code' },
  { value: 'specification', words: 'Pass the leakage limits' },
];

/** What is left to gain, in the measure of the goal. */
export const worthWords = (goal: Goal, worth: number, format: Format): string => {
  switch (goal.kind) {
    case 'life-cycle':
      return `${money(worth)} of energy a year`;
    case 'comfort':
      return `${worth.toFixed(0)} K·h a year outside the tolerance`;
    case 'rooms':
      return worth < nearlyMet
        ? 'nothing beyond the tolerance in any room'
        : `${format.full(worth, 'temperatureDifference', 1)} beyond the tolerance, all rooms together`;
    default:
      return `${(100 * worth).toFixed(0)} % beyond the limits`;
  }
};

export const stageWords: Readonly<Record<RepairProgress['doing'], string>> = {
  searching: 'Looking for the best set',
  'drawing the value curve': 'Finding what each next dollar buys',
  'valuing each repair': 'Valuing each repair',
  'trying other houses': 'Trying it on houses drawn from the ranges',
};

/** Why a plan that came close has lost, by the figure in which it is worse. */
export const whyLost = (plan: RepairPlan, one: PlannedSet, format: Format): string => {
  const dearer = one.cost.typical - plan.chosen.cost.typical;
  if (one.worth > plan.chosen.worth + 1e-3) return `leaves ${worthWords(plan.goal, one.worth, format)}`;
  return dearer > 0.5 ? `costs ${money(dearer)} more` : 'comes out even';
};

/** The set of the curve that a budget buys. */
export const withinBudget = ({ curve, chosen }: RepairPlan, budget: number): PlannedSet => {
  if (budget >= chosen.cost.typical - 0.5) {
    const beyond = curve.filter((one) => one.cost.typical <= budget && one.worth < chosen.worth - 1e-9);
    return beyond.at(-1) ?? chosen;
  }
  return curve.filter((one) => one.cost.typical <= budget + 0.5).at(-1) ?? curve[0] ?? chosen;
};
