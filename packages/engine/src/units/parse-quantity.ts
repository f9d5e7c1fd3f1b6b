import { type Dimension, dimensions, unitsOf } from './dimension.ts';
import type { Unit } from './unit-tables.ts';

/** A typed value in SI, with its range where one was typed. */
export type ParsedQuantity = { readonly value: number; readonly low?: number; readonly high?: number };
/** Why a text is not the quantity that is needed; `problem` completes "it …". */
export type QuantityError = { readonly problem: string };

type Term = { readonly numbers: readonly { readonly number: number; readonly unit: string }[] };

const compass = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
];
const compassWords: Readonly<Record<string, string>> = {
  NORTH: 'N',
  NORTHEAST: 'NE',
  EAST: 'E',
  SOUTHEAST: 'SE',
  SOUTH: 'S',
  SOUTHWEST: 'SW',
  WEST: 'W',
  NORTHWEST: 'NW',
};

const plain = (text: string): string =>
  text
    .replace(/−/g, '-')
    .replace(/(?<=\S)\s*–\s*/g, ' to ')
    .replace(/½/g, ' 1/2')
    .replace(/¼/g, ' 1/4')
    .replace(/¾/g, ' 3/4')
    .replace(/[′’]/g, "'")
    .replace(/[″”“]/g, '"')
    .replace(/\s+/g, ' ')
    .trim();

/** Spelling of a unit reduced to what tells units apart. */
const unitKey = (text: string): string =>
  text
    .toLowerCase()
    .replace(/²/g, '2')
    .replace(/³/g, '3')
    .replace(/deg(rees?)?/g, '')
    .replace(/[\s().·⋅*^°-]/g, '');

const spellings = new Map<Dimension, ReadonlyMap<string, Unit>>();
const spellingsOf = (dimension: Dimension): ReadonlyMap<string, Unit> => {
  let known = spellings.get(dimension);
  if (!known) {
    const entries = Object.entries(unitsOf(dimension)) as [string, Unit][];
    known = new Map(
      entries.flatMap(([name, unit]) =>
        [unitKey(name), ...(unit.spellings ?? [])].map((spelling): [string, Unit] => [spelling, unit]),
      ),
    );
    spellings.set(dimension, known);
  }
  return known;
};

const amount = String.raw`(?:\d+ \d+\/\d+|\d+\/\d+|(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?(?:[eE][-+]?\d+)?|\.\d+)`;
const leading = new RegExp(`^(RSI|USI|R|U)[- ]?(${amount})$`, 'i');
const trailing = new RegExp(String.raw`^(${amount}) ?([^\d].*?)? ?(?=$)`, 'i');
const compound = new RegExp(
  String.raw`^(${amount}) ?('|ft|feet|foot)[ -]?(${amount}) ?("|''|in|inch|inches)\.?$`,
  'i',
);

const numberOf = (text: string): number => {
  const mixed = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  return mixed ? Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3]) : Number(text.replace(/,/g, ''));
};

/** "12 ft 6 in", "R-8" or "94 cfm" as numbers with unit keys; undefined when it is none of these. */
const parseTerm = (text: string): Term | undefined => {
  const sign = text.startsWith('-') ? -1 : 1;
  const bare = text.replace(/^[-+] ?/, '');
  const both = compound.exec(bare);
  if (both)
    return {
      numbers: [
        { number: sign * numberOf(both[1]!), unit: 'ft' },
        { number: sign * numberOf(both[3]!), unit: 'in' },
      ],
    };
  const lead = leading.exec(text);
  if (lead) return { numbers: [{ number: numberOf(lead[2]!), unit: lead[1]!.toLowerCase() }] };
  const trail = trailing.exec(bare);
  if (!trail) return undefined;
  return { numbers: [{ number: sign * numberOf(trail[1]!), unit: unitKey(trail[2] ?? '') }] };
};

const withUnit = (term: Term, unit: string): Term =>
  unit !== '' && term.numbers.length === 1 && term.numbers[0]!.unit === ''
    ? { numbers: [{ number: term.numbers[0]!.number, unit }] }
    : term;

const lastUnit = (term: Term): string => term.numbers.at(-1)!.unit;

/** SI value of a term, or undefined when its unit is not one of the dimension's. */
const siOf = (term: Term, dimension: Dimension, asDifference = false): number | undefined => {
  const known = spellingsOf(dimension);
  let sum = 0;
  for (const { number, unit } of term.numbers) {
    const found = known.get(unit);
    if (!found) return undefined;
    sum += number * found.factor + (asDifference ? 0 : (found.zero ?? 0));
  }
  return sum;
};

const dimensionsWithUnit = (unit: string): Dimension | undefined =>
  (Object.keys(dimensions) as Dimension[]).find((dimension) => spellingsOf(dimension).has(unit));

const unitProblem = (term: Term, dimension: Dimension): QuantityError => {
  const unit = lastUnit(term);
  if (unit === '') return { problem: 'has no unit' };
  const other = dimensionsWithUnit(unit);
  if (other && other !== dimension) return { problem: `is ${dimensions[other].called}` };
  return { problem: 'has a unit that is not known' };
};

const plusMinus = /^(.+?) ?(?:±|\+\/-|\+-) ?(.+)$/;
const between = /^(.+?) ?\( ?(.+?) ?(?: to |\.\.) ?(.+?) ?\)$/i;
const fromTo = /^(.+?) to (.+)$/i;

const parse = (typed: string, dimension: Dimension): ParsedQuantity | QuantityError => {
  const text = plain(typed);
  if (dimension === 'angle') {
    const upper = text.toUpperCase();
    const point = compass.indexOf(compassWords[upper.replace(/[ -]/g, '')] ?? upper);
    if (point >= 0) return { value: point * 22.5 };
  }
  const range = plusMinus.exec(text) ?? between.exec(text) ?? fromTo.exec(text);
  const terms = (range ? range.slice(1) : [text]).map((piece) => parseTerm(piece));
  if (terms.some((term) => !term)) return { problem: 'is not a number with a unit' };
  const isTolerance = range !== null && plusMinus.test(text);
  const relative = isTolerance && lastUnit(terms[1]!) === '%' && !spellingsOf(dimension).has('%');
  // A unit typed once serves the whole range: "R-6 ± 1", "100 ± 20 cfm", "30 % (10 to 50 %)".
  const shared =
    terms.map((term) => lastUnit(term!)).find((unit) => unit !== '' && !(relative && unit === '%')) ?? '';
  const full = terms.map((term) => withUnit(term!, shared));
  const [first, second, third] = full;
  const value = siOf(first!, dimension);
  if (value === undefined) return unitProblem(first!, dimension);
  if (!second) return { value };
  if (isTolerance) {
    const margin = relative
      ? Math.abs(value) * (second.numbers[0]!.number / 100)
      : siOf(second, dimension, true);
    if (margin === undefined) return unitProblem(second, dimension);
    return { value, low: value - Math.abs(margin), high: value + Math.abs(margin) };
  }
  const low = third ? siOf(second, dimension) : value;
  const high = siOf(third ?? second, dimension);
  if (low === undefined || high === undefined)
    return unitProblem(low === undefined ? second : third!, dimension);
  if (low > high) return { problem: 'has a range that runs backwards' };
  if (!third) return { value: (low + high) / 2, low, high };
  if (value < low || value > high) return { problem: 'lies outside its own range' };
  return { value, low, high };
};

const most = 20_000;
const memory = new Map<Dimension, Map<string, ParsedQuantity | QuantityError>>();

/**
 * SI value of a typed quantity, in either unit system: "12 ft 6 in", "0.5 in.wc", "R-6 ± 1",
 * "30 % (10 to 50 %)", "35 to 65 °F" (value in the middle), "94 cfm ± 10 %".
 * Spaces and case are free. The same text is parsed once and remembered.
 */
export const parseQuantity = (text: string, dimension: Dimension): ParsedQuantity | QuantityError => {
  const known = memory.get(dimension) ?? new Map<string, ParsedQuantity | QuantityError>();
  if (known.size === 0) memory.set(dimension, known);
  const before = known.get(text);
  if (before) return before;
  if (known.size >= most) known.clear();
  const parsed = parse(text, dimension);
  known.set(text, parsed);
  return parsed;
};
