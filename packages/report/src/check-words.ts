import {
  type Check,
  type CheckQuantity,
  type Dimension,
  formatQuantity,
  type UnitSystem,
} from '@airledger/engine';

const dimensionOf: Readonly<Record<Exclude<CheckQuantity, 'none'>, Dimension>> = {
  'leakage per floor area': 'airflowPerArea',
  'share of fan flow': 'ratio',
  insulation: 'resistance',
  velocity: 'velocity',
  pressure: 'pressure',
  'airflow per capacity': 'airflowPerPower',
  temperature: 'temperature',
  'temperature difference': 'temperatureDifference',
  airflow: 'airflow',
};

/** Pressures of rooms are spoken of in Pa everywhere, those of fans in the unit of the user. */
const smallPressure_Pa = 25;

/** Value, limit or margin of a check with its unit; "—" when it has none. */
export const checkFigure = (check: Check, which: 'value' | 'limit' | 'margin', units: UnitSystem): string => {
  const si = check[which];
  if (si === undefined || check.quantity === 'none') return '—';
  const dimension = dimensionOf[check.quantity];
  const isSmall = dimension === 'pressure' && Math.abs(check.limit ?? si) < smallPressure_Pa;
  // A margin of a temperature is a difference.
  const shown = which === 'margin' && dimension === 'temperature' ? 'temperatureDifference' : dimension;
  const show = (value: number) =>
    formatQuantity(value, shown, isSmall ? 'si' : units, dimension === 'ratio' ? 1 : undefined);
  if (which !== 'margin') return show(si);
  const size = show(Math.abs(si)).replace(/^(R|RSI)[- ](.*)$/, '$2 $1');
  return `${si < 0 ? '−' : '+'}${size}`;
};

/** What a check asks, as "at most 4.0 cfm/100 ft²". */
export const checkDemand = (check: Check, units: UnitSystem): string =>
  check.limit === undefined
    ? '—'
    : `${check.sense === 'within' ? 'within limits, nearer one' : check.sense} ${checkFigure(check, 'limit', units)}`;

const order: readonly Check['result'][] = ['fail', 'cannot tell', 'pass', 'exempt'];

/** Checks with the failed first, then the open ones; within a result in their own order. */
export const failedFirst = (checks: readonly Check[]): readonly Check[] =>
  checks.toSorted((a, b) => order.indexOf(a.result) - order.indexOf(b.result));

/** Titles of the groups, in the order in which they bind. */
export const checkGroups: readonly { readonly group: Check['group']; readonly title: string }[] = [
  { group: 'safety', title: 'Safety' },
  { group: 'code', title: 'Energy code' },
  { group: 'specification', title: 'Project specification' },
  { group: 'trade', title: 'Trade practice' },
];

/** Title of a check with what it is about, once. */
export const checkTitle = ({ title, subject }: Check, name: (id: string) => string): string =>
  title.includes(name(subject)) ? title : `${title} (${name(subject)})`;
