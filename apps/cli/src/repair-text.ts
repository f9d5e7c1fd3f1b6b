import { formatQuantity, type UnitSystem } from '@airledger/engine';
import { type Range, type RepairPlan, type RunnerUp, repairCautions, type Standing } from '@airledger/job';
import { missWords } from '@airledger/report/miss-words';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { wrap } from './wrap.ts';

const money = (amount: number): string =>
  `${amount < -0.5 ? '−' : ''}$${Math.abs(Math.round(amount)).toLocaleString('en-US')}`;
const moneyRange = ({ low, typical, high }: Range): string =>
  `${money(typical)} (${money(low)} to ${money(high)})`;

const goalWords: Readonly<Record<RepairPlan['goal']['kind'], string>> = {
  rooms: 'rooms within tolerance at least cost',
  'life-cycle': 'least cost of repairs and energy over the years',
  comfort: 'most comfort for the money',
  code: 'pass the energy code at least cost',
  specification: 'pass the leakage limits of the specification at least cost',
};

/** A plan as text: work in order, what it does to the rooms, the value curve, runners-up and cautions. */
export const repairText = (plan: RepairPlan, units: UnitSystem): string =>
  [
    headText(plan),
    missText(plan, units),
    moneyText(plan),
    workText(plan),
    roomsText(plan, units),
    curveText(plan),
    runnersText(plan),
    steadyText(plan, units),
    cautionsText(plan),
    `Prices: ${plan.prices.currency}, ${plan.prices.date}; ${plan.prices.source}. Change them under "repairPrices" in the job.`,
  ]
    .filter((part) => part !== '')
    .join('\n\n');

const headText = ({ goal, state, met, chosen, evaluations, candidates }: RepairPlan): string =>
  [
    `${paint('bold', 'Plan')}: ${goalWords[goal.kind]}, from state ${state}`,
    chosen.repairs.length === 0
      ? 'Nothing needs to be done.'
      : `${chosen.repairs.length} repairs of ${candidates.length} that make sense here, ${moneyRange(chosen.cost)}.`,
    met
      ? `${evaluations} sets were worked out in full.`
      : `None of the ${evaluations} sets that were worked out in full meets the goal; this comes nearest to it.`,
  ].join('\n');

const missText = ({ misses }: RepairPlan, units: UnitSystem): string => {
  const lines = missWords(misses, units);
  return lines.length === 0
    ? ''
    : `${paint('bold', 'What it still misses')}\n${lines.map((line) => wrap(line, '  ')).join('\n')}`;
};

const years = (value: number | undefined): string =>
  value === undefined ? 'never' : `${value.toFixed(value < 10 ? 1 : 0)} years`;

const moneyText = ({ money: sums, before, chosen, terms }: RepairPlan): string => {
  if (!sums || !before.year || !chosen.standing.year || chosen.repairs.length === 0) return '';
  const { worst, typical, best } = sums.worth;
  return [
    `Energy:   ${money(before.year.cost)} a year before, ${money(chosen.standing.year.cost)} after: saves ${moneyRange(sums.saving)} and ${Math.round(sums.emission_kg)} kg of CO₂ a year.`,
    `Comfort:  ${before.year.discomfort_Kh.toFixed(0)} degree-hours (K·h) a year outside the tolerance before, ${chosen.standing.year.discomfort_Kh.toFixed(0)} after, mean over the floor.`,
    typical.simplePayback_years === undefined
      ? `Payback:  never, as it saves no energy: ${typical.verdict}.`
      : `Payback:  ${years(typical.simplePayback_years)} (${years(best.simplePayback_years)} at best, ${years(worst.simplePayback_years)} at worst); over ${terms.years} years ${money(typical.netSavings)} net: ${typical.verdict}.`,
  ].join('\n');
};

const workText = ({ work, test }: RepairPlan): string => {
  if (work.length === 0) return '';
  const rows = work.map(({ candidate, byValue }) => [
    candidate.repair.phase,
    candidate.name,
    `${candidate.quantity.toFixed(candidate.quantity < 10 ? 1 : 0)} ${candidate.repair.unit}`,
    candidate.hours.toFixed(1),
    money(candidate.cost.typical),
    `${money(candidate.cost.low)} to ${money(candidate.cost.high)}`,
    String(byValue),
    candidate.id,
  ]);
  if (test) {
    const after = work.findLastIndex(({ candidate }) => ['rework', 'seal'].includes(candidate.repair.phase));
    rows.splice(after + 1, 0, [
      'test',
      'Test the leakage of the ducts',
      '',
      '',
      money(test.typical),
      `${money(test.low)} to ${money(test.high)}`,
      '',
      '',
    ]);
  }
  return `${paint('bold', 'Work, in order')}\n${table(
    [
      left(''),
      left('what'),
      left('how much'),
      right('hours'),
      right('cost'),
      right('range'),
      right('by value'),
      left('id'),
    ],
    rows,
  )}`;
};

const roomsText = ({ rooms, before, chosen }: RepairPlan, units: UnitSystem): string => {
  const modes = Object.keys(before.drift_K) as ('heating' | 'cooling')[];
  const drift = (standing: Standing, mode: 'heating' | 'cooling', at: number): string =>
    signed(standing.drift_K[mode]![at]!, units);
  return `${paint('bold', 'Rooms off their set point on the design days')}\n${table(
    [left('room'), ...modes.flatMap((mode) => [right(mode, 'before'), right('', 'after')])],
    rooms.map(({ name }, at) => [
      name,
      ...modes.flatMap((mode) => [drift(before, mode, at), drift(chosen.standing, mode, at)]),
    ]),
  )}`;
};

const signed = (difference_K: number, units: UnitSystem): string => {
  const text = formatQuantity(difference_K, 'temperatureDifference', units, 1);
  return difference_K > 0 && !/^0\.0 /.test(text) ? `+${text}` : text;
};

/** What is left to gain, in the unit of the goal. */
const worthText = ({ goal }: RepairPlan, worth: number): string => {
  switch (goal.kind) {
    case 'life-cycle':
      return `${money(worth)} a year`;
    case 'comfort':
      return `${worth.toFixed(0)} K·h a year`;
    case 'rooms':
      return `${worth.toFixed(2)} K beyond`;
    default:
      return `${(100 * worth).toFixed(0)} % beyond limits`;
  }
};

const curveText = (plan: RepairPlan): string => {
  const { curve } = plan;
  if (curve.length < 2) return '';
  return `${paint('bold', 'What each next dollar buys')}\n${table(
    [right('spent'), right('left over')],
    curve.map(({ cost, worth }) => [money(cost.typical), worthText(plan, worth)]),
  )}`;
};

const runnersText = (plan: RepairPlan): string => {
  if (plan.runnersUp.length === 0) return '';
  const nameOf = (id: string): string => plan.candidates.find((one) => one.id === id)!.name;
  const lines = plan.runnersUp.map((one) => {
    const adds = one.adds.length > 0 ? `does also: ${one.adds.map(nameOf).join('; ')}` : '';
    const lacks = one.lacks.length > 0 ? `leaves out: ${one.lacks.map(nameOf).join('; ')}` : '';
    return wrap(
      `${money(one.cost.typical)}, ${[adds, lacks].filter(Boolean).join('. ')}. ${whyLost(plan, one)}`,
      '  ',
    );
  });
  return `${paint('bold', 'What came close')}\n${lines.join('\n')}`;
};

/** Why a plan lost, by the figure in which it is worse. */
const whyLost = (plan: RepairPlan, one: RunnerUp): string => {
  const dearer = one.cost.typical - plan.chosen.cost.typical;
  const worse = one.worth - plan.chosen.worth;
  if (worse > 1e-3) return `It lost because it leaves ${worthText(plan, one.worth)}.`;
  return dearer > 0.5
    ? `It lost because it costs ${money(dearer)} more${worse < -1e-3 ? ' than it gains' : ' for as much'}.`
    : 'It came out even.';
};

const steadyText = ({ steadiness, chosen }: RepairPlan, units: UnitSystem): string => {
  if (!steadiness || chosen.repairs.length === 0) return '';
  const { draws, best, worstDrift_K } = steadiness;
  return wrap(
    `In ${Math.round(100 * best)} % of ${draws} houses drawn from the ranges of the survey, with weather and prices varied, this plan stays the best of those above. Its worst room is then ${formatQuantity(worstDrift_K.low, 'temperatureDifference', units, 1)} to ${formatQuantity(worstDrift_K.high, 'temperatureDifference', units, 1)} off.`,
    '',
  );
};

const cautionsText = ({ work }: RepairPlan): string => {
  const names = [...new Set(work.flatMap(({ candidate }) => candidate.repair.cautions))];
  if (names.length === 0) return '';
  return `${paint('bold', 'Mind')}\n${names.map((name) => wrap(repairCautions.get(name)!, '  ')).join('\n')}`;
};
