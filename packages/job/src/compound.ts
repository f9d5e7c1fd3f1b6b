import { type Dimension, type ParsedQuantity, parseQuantity, type Section } from '@airledger/engine';

type Problem = { readonly problem: string };

/** Two quantities in one text; a unit typed once serves both: "8 x 14 in". */
const pair = (
  first: string,
  second: string,
  dimensions: readonly [Dimension, Dimension],
): readonly [number, number] | Problem => {
  const b = parseQuantity(second, dimensions[1]);
  if ('problem' in b) return b;
  const unit = /[a-z"'].*$/i.exec(second)?.[0] ?? '';
  let a: ParsedQuantity | Problem = parseQuantity(first, dimensions[0]);
  if ('problem' in a && dimensions[0] === dimensions[1]) a = parseQuantity(`${first} ${unit}`, dimensions[0]);
  return 'problem' in a ? a : [a.value, b.value];
};

const remembered = <T>(parse: (text: string) => T): ((text: string) => T) => {
  const memory = new Map<string, T>();
  return (text) => {
    const before = memory.get(text);
    if (before !== undefined) return before;
    if (memory.size > 10_000) memory.clear();
    const parsed = parse(text);
    memory.set(text, parsed);
    return parsed;
  };
};

/** "10 in x 4 in" as metres: width, then height. */
export const parseSize = remembered((text: string): readonly [number, number] | Problem => {
  const sides = text.trim().split(/\s*[x×]\s*/i);
  return sides.length === 2
    ? pair(sides[0]!, sides[1]!, ['size', 'size'])
    : { problem: 'is not two lengths with an x between' };
});

/** "12 ft, 3 ft 6 in" as metres. */
export const parsePoint = remembered((text: string): readonly [number, number] | Problem => {
  const ends = text.trim().split(/\s*,\s*(?!\d{3}\b)/);
  return ends.length === 2
    ? pair(ends[0]!, ends[1]!, ['length', 'length'])
    : { problem: 'is not two lengths with a comma between' };
});

/** "1200 cfm at 0.5 in.wc" as m³/s and Pa. */
export const parseFanPoint = remembered((text: string): readonly [number, number] | Problem => {
  const ends = text.trim().split(/ (?:at|@) /i);
  return ends.length === 2
    ? pair(ends[0]!, ends[1]!, ['airflow', 'pressure'])
    : { problem: 'is not an airflow at a pressure' };
});

/** "2 ft³ in 96 s" as m³ and s: what a meter counted, and how long it took. */
export const parseClocked = remembered((text: string): readonly [number, number] | Problem => {
  const ends = text.trim().split(/ in /i);
  return ends.length === 2
    ? pair(ends[0]!, ends[1]!, ['volume', 'duration'])
    : { problem: 'is not a volume in a time' };
});

/** "7 in" is round, "8 in x 14 in" rectangular, "16 in x 6 in oval" flat oval. */
export const parseSection = remembered((text: string): Section | Problem => {
  const oval = /\s+oval$/i.test(text);
  const bare = text.replace(/\s+(oval|round|rectangular)$/i, '');
  if (!/[x×]/i.test(bare)) {
    const diameter = parseQuantity(bare, 'size');
    if ('problem' in diameter) return diameter;
    return oval ? { problem: 'is oval but has one size' } : { shape: 'round', diameter_m: diameter.value };
  }
  const sides = parseSize(bare);
  if ('problem' in sides) return sides;
  const [first, second] = sides;
  return oval
    ? { shape: 'oval', major_m: Math.max(first, second), minor_m: Math.min(first, second) }
    : { shape: 'rectangular', width_m: first, height_m: second };
});

/** "2025-07-15 10:15", "2025-07-15T10:15" or "2025-07-15" in a form that sorts by time. */
export const parseMoment = remembered((text: string): { readonly moment: string } | Problem => {
  const found = /^(\d{4})-(\d\d)-(\d\d)(?:[ T](\d\d):(\d\d)(?::\d\d)?)?$/.exec(text.trim());
  if (!found) return { problem: 'is not a day as 2025-07-15' };
  const [, , month, day, hour = '00', minute = '00'] = found;
  const possible =
    within(month!, 1, 12) && within(day!, 1, 31) && within(hour, 0, 23) && within(minute, 0, 59);
  return possible
    ? { moment: `${found[1]}-${month}-${day} ${hour}:${minute}` }
    : { problem: 'is no day of the calendar' };
});

const within = (digits: string, least: number, most: number): boolean =>
  Number(digits) >= least && Number(digits) <= most;
