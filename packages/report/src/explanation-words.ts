import {
  type Dimension,
  type Ends,
  type Explanation,
  formatQuantity,
  type HeatExplanation,
  type Imbalance,
  type Mode,
  type RangedExplanation,
  type RangedHeatExplanation,
  type RangedImbalance,
  type Service,
  type UnitSystem,
} from '@airledger/engine';
import { rangeText } from './range-text.ts';

/** One part of a shortage, or the whole of it, with its range where readings tell one. */
export type SplitPart = {
  readonly id: string;
  readonly what: string;
  readonly value: number;
  readonly range?: Ends;
};

/** A shortage or an imbalance split over its causes, ready to be shown: a sentence, and parts that add up to the whole. */
export type Split = {
  readonly sentence: string;
  readonly dimension: Dimension;
  readonly parts: readonly SplitPart[];
  readonly whole: SplitPart;
};

const layout = 'size and length of its ducts, and the fan';

/** What a room is short of on a design day besides air: "heat" or "cooling". */
export const heatWord = (mode: Mode): string => (mode === 'heating' ? 'heat' : 'cooling');

/** What a room, storey or system is served with: "air", "heat" or "cooling". */
export const serviceWord = (of: Service, mode: Mode): string => (of === 'air' ? 'air' : heatWord(mode));

/** The equipment's part: what it lacks for every room, or what it would have left once all is put right. */
const equipmentWords = (equipment_W: number): string =>
  equipment_W > 0
    ? 'output of the equipment, too little for all rooms'
    : 'spare output of the equipment once all is put right';

/** Why a room is short of air. */
export const airSplit = (
  explanation: Explanation | RangedExplanation,
  room: string,
  units: UnitSystem,
): Split => {
  const ranged = 'shortageRange_m3s' in explanation ? explanation : undefined;
  return shortageSplit(
    {
      causes: ranged
        ? ranged.causes.map(({ id, what, air_m3s, low_m3s, high_m3s }) => ({
            id,
            what,
            value: air_m3s,
            range: { low: low_m3s, high: high_m3s },
          }))
        : explanation.causes.map(({ id, what, air_m3s }) => ({ id, what, value: air_m3s })),
      rest: [
        { id: 'layout', what: layout, value: explanation.layout_m3s, ...within(ranged?.layoutRange_m3s) },
      ],
      whole: { value: explanation.shortage_m3s, ...within(ranged?.shortageRange_m3s) },
    },
    room,
    'air',
    'airflow',
    units,
  );
};

/** Why a room is short of heat, or in summer of cooling. */
export const heatSplit = (
  explanation: HeatExplanation | RangedHeatExplanation,
  room: string,
  mode: Mode,
  units: UnitSystem,
): Split => {
  const ranged = 'shortageRange_W' in explanation ? explanation : undefined;
  return shortageSplit(
    {
      causes: ranged
        ? ranged.causes.map(({ id, what, heat_W, low_W, high_W }) => ({
            id,
            what,
            value: heat_W,
            range: { low: low_W, high: high_W },
          }))
        : explanation.causes.map(({ id, what, heat_W }) => ({ id, what, value: heat_W })),
      rest: [
        {
          id: 'equipment',
          what: equipmentWords(explanation.equipment_W),
          value: explanation.equipment_W,
          ...within(ranged?.equipmentRange_W),
        },
        { id: 'layout', what: layout, value: explanation.layout_W, ...within(ranged?.layoutRange_W) },
      ],
      whole: { value: explanation.shortage_W, ...within(ranged?.shortageRange_W) },
    },
    room,
    heatWord(mode),
    'power',
    units,
  );
};

/** Why one room, storey or system gets more of the air, or of the heat or cooling, that it needs than another. */
export const imbalanceSplit = (
  imbalance: Imbalance | RangedImbalance,
  mode: Mode,
  units: UnitSystem,
): Split => {
  const ranged = 'differenceRange' in imbalance ? imbalance : undefined;
  const causes: readonly SplitPart[] = ranged
    ? ranged.causes.map(({ id, what, share, low, high }) => ({
        id,
        what,
        value: share,
        range: { low, high },
      }))
    : imbalance.causes.map(({ id, what, share }) => ({ id, what, value: share }));
  const whole = { value: imbalance.difference, ...within(ranged?.differenceRange) };
  const percent = (share: number) => formatQuantity(share, 'ratio', units, 0);
  const [better, worse] = imbalance.groups;
  const [ofBetter, ofWorse] = imbalance.shares;
  const parts: readonly SplitPart[] = [
    ...causes,
    {
      id: 'layout',
      what:
        imbalance.of === 'air'
          ? 'size and length of their ducts, and the fan'
          : 'size and length of their ducts, the fan and the equipment',
      value: imbalance.layout,
      ...within(ranged?.layoutRange),
    },
  ];
  return {
    sentence: `${capital(better.name)} gets ${percent(ofBetter)} of the ${serviceWord(imbalance.of, mode)} it needs, ${worse.name} ${percent(ofWorse)}: a gap of ${amount(whole, 'ratio', units)} of need, chiefly because of ${largest(parts, whole.value, 'ratio', units)}.`,
    dimension: 'ratio',
    parts,
    whole: { id: 'whole', what: 'gap', ...whole },
  };
};

const within = (range: Ends | undefined) => (range ? { range } : {});

function shortageSplit(
  {
    causes,
    rest,
    whole,
  }: {
    readonly causes: readonly SplitPart[];
    readonly rest: readonly SplitPart[];
    readonly whole: Pick<SplitPart, 'value' | 'range'>;
  },
  room: string,
  of: string,
  dimension: Dimension,
  units: UnitSystem,
): Split {
  const parts = [...causes, ...rest];
  const short = amount(whole, dimension, units);
  const sentence =
    whole.value > 0
      ? `${room} is ${short} short of ${of}, chiefly because of ${largest(parts, whole.value, dimension, units)}.`
      : `${room} gets all the ${of} it needs, and ${amount(turned(whole), dimension, units)} to spare.`;
  return { sentence, dimension, parts, whole: { id: 'whole', what: `short of ${of} by`, ...whole } };
}

/** A shortage as what is to spare. */
const turned = ({
  value,
  range,
}: Pick<SplitPart, 'value' | 'range'>): Pick<SplitPart, 'value' | 'range'> => ({
  value: -value,
  ...within(range && { low: -range.high, high: -range.low }),
});

/** The few largest parts of a whole above zero, of which there always is one: there are fewer than twenty parts. */
const largest = (
  parts: readonly SplitPart[],
  whole: number,
  dimension: Dimension,
  units: UnitSystem,
): string =>
  parts
    .filter(({ value }) => value > 0.05 * whole)
    .toSorted((a, b) => b.value - a.value)
    .slice(0, 3)
    .map(({ what, value }) => `${what} (${formatQuantity(value, dimension, units, 0)})`)
    .join(', then ');

const amount = (
  { value, range }: Pick<SplitPart, 'value' | 'range'>,
  dimension: Dimension,
  units: UnitSystem,
): string =>
  range
    ? rangeText({ ...range, middle: value }, dimension, units, 0)
    : formatQuantity(value, dimension, units, 0);

/** "Slack in its flex": a part as the head of its line. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
