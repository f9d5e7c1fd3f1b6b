import { type Dimension, dimensions, parseQuantity } from '@airledger/engine';
import { z } from 'zod';
import {
  parseClocked,
  parseFanPoint,
  parseMoment,
  parsePoint,
  parseSection,
  parseSize,
} from '../compound.ts';
import { howKnownWords, type Typed } from '../typed.ts';

/** What an issue found by our own checks carries to the error list. */
export type IssueParams = { readonly value?: string; readonly expected: string; readonly remedy: string };

type Complain = (params: IssueParams) => void;

/** A field of our own checking; `meta` goes to the JSON Schema. */
const field = <T>(meta: Record<string, unknown>, check: (input: unknown, complain: Complain) => void) =>
  z
    .custom<T>(() => true)
    .check((ctx) =>
      check(ctx.value, (params) => {
        ctx.issues.push({ code: 'custom', input: ctx.value, message: params.expected, params });
      }),
    )
    .meta(meta);

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Limits as one would type them, both allowed. */
export type Limits = {
  readonly least?: string;
  readonly most?: string;
  /** Better than those of the dimension. */
  readonly examples?: readonly [ip: string, si: string];
};

const limit = (text: string | undefined, dimension: Dimension): number | undefined => {
  if (text === undefined) return undefined;
  const parsed = parseQuantity(text, dimension);
  if ('problem' in parsed) throw new Error(`The limit "${text}" of a field ${parsed.problem}`);
  return parsed.value;
};

/**
 * A quantity of one dimension, as a text or as { value, known, note }.
 * Limits are where the impossible begins, not where good practice ends.
 */
export const quantity = (dimension: Dimension, help: string, { least, most, examples: own }: Limits = {}) => {
  const { called, examples: usual } = dimensions[dimension];
  const examples = own ?? usual;
  const low = limit(least, dimension);
  const high = limit(most, dimension);
  const bounds =
    least !== undefined && most !== undefined
      ? ` from ${least} to ${most}`
      : least !== undefined
        ? ` of ${least} or more`
        : most !== undefined
          ? ` of ${most} or less`
          : '';
  const expected = `${called}${bounds}`;
  const write = `Write it like "${examples[0]}"${examples[1] === examples[0] ? '' : ` or "${examples[1]}"`}.`;
  const bare = dimension === 'number' || dimension === 'ratio';
  return field<Typed>(
    {
      description: help,
      unit: dimension,
      examples: [...new Set(examples)],
      ...(least !== undefined && { least }),
      ...(most !== undefined && { most }),
    },
    (input, complain) => {
      const value = isRecord(input) ? input.value : input;
      if (isRecord(input)) {
        for (const key of Object.keys(input))
          if (!['value', 'known', 'note'].includes(key))
            complain({
              value: `field "${key}"`,
              expected: 'only value, known and note',
              remedy: 'Remove it or put it in the note.',
            });
        if (input.known !== undefined && !(howKnownWords as readonly unknown[]).includes(input.known))
          complain({
            value: JSON.stringify(input.known),
            expected: `known to be one of ${howKnownWords.map((word) => `"${word}"`).join(', ')}`,
            remedy: 'Pick the word that fits, or leave it out.',
          });
      }
      if (value === undefined)
        return complain({
          ...(isRecord(input) && { value: 'a record without "value"' }),
          expected,
          remedy: write,
        });
      if (typeof value !== 'string' && !(bare && typeof value === 'number'))
        return complain({
          expected: `${expected} as text`,
          remedy: typeof value === 'number' ? `A number alone has no unit. ${write}` : write,
        });
      const parsed = parseQuantity(String(value), dimension);
      if ('problem' in parsed)
        return complain({
          value: `${JSON.stringify(value)}, which ${parsed.problem}`,
          expected,
          remedy: write,
        });
      const ends = [parsed.value, parsed.low ?? parsed.value, parsed.high ?? parsed.value];
      if (
        (low !== undefined && Math.min(...ends) < low - 1e-12) ||
        (high !== undefined && Math.max(...ends) > high + 1e-12)
      )
        complain({ expected, remedy: 'Check the number and its unit; the whole range has to be possible.' });
    },
  );
};

const compound = <T extends object>(
  help: string,
  examples: readonly string[],
  expected: string,
  parse: (text: string) => T | { readonly problem: string },
  limits?: { readonly words: string; readonly broken: (parsed: T) => boolean },
) => {
  const meta = { type: 'string', description: help, examples, ...(limits && { limits: limits.words }) };
  return field<string>(meta, (input, complain) => {
    const remedy = `Write it like ${examples.map((example) => `"${example}"`).join(' or ')}.`;
    if (typeof input !== 'string') return complain({ expected, remedy });
    const parsed = parse(input);
    if ('problem' in parsed)
      return complain({ value: `${JSON.stringify(input)}, which ${parsed.problem}`, expected, remedy });
    if (limits?.broken(parsed as T))
      complain({ expected: limits.words, remedy: 'Check the numbers and their units.' });
  });
};

const outside = (least: number, most: number, ...values: number[]): boolean =>
  values.some((value) => value < least || value > most);

/** Width × height of a wall, a window or a room. */
export const sizeField = (help: string) =>
  compound(help, ['12 ft x 8 ft', '3.6 m x 2.4 m'], 'a width and a height', parseSize, {
    words: 'two lengths from 1 cm to 150 m',
    broken: ([a, b]) => outside(0.01, 150, a, b),
  });

/** Face of a register, grille or filter. */
export const faceField = (help: string) =>
  compound(help, ['10 in x 4 in', '250 mm x 100 mm'], 'a width and a height', parseSize, {
    words: 'two sizes from 1 in to 78 in',
    broken: ([a, b]) => outside(0.02, 2, a, b),
  });

export const pointField = (help: string) =>
  compound(help, ['12 ft, 3 ft 6 in', '3.6 m, 1 m'], 'a point: east, then north', parsePoint, {
    words: 'a point within 500 m of the origin',
    broken: ([x, y]) => outside(-500, 500, x, y),
  });

export const fanPointField = compound(
  'Airflow at a pressure, a line of the maker’s blower table.',
  ['1200 cfm at 0.5 in.wc', '570 L/s at 125 Pa'],
  'an airflow at a pressure',
  parseFanPoint,
  {
    words: 'an airflow up to 5 m³/s at a pressure up to 1500 Pa',
    broken: ([flow, rise]) => outside(0, 5, flow) || outside(0, 1500, rise),
  },
);

export const sectionField = compound(
  'Inside size: one number is round, two are rectangular (width x height), "oval" behind two is flat oval.',
  ['7 in', '8 in x 14 in', '16 in x 6 in oval'],
  'a duct size',
  parseSection,
  {
    words: 'duct sizes from 1 in to 60 in',
    broken: (section) =>
      outside(
        0.0254,
        1.524,
        ...(section.shape === 'round'
          ? [section.diameter_m]
          : section.shape === 'oval'
            ? [section.major_m, section.minor_m]
            : [section.width_m, section.height_m]),
      ),
  },
);

export const leakPointField = compound(
  'Airflow at the pressure held, one point of a leakage test.',
  ['100 cfm at 25 Pa', '47 L/s at 25 Pa'],
  'an airflow at a pressure',
  parseFanPoint,
);

export const clockedField = compound(
  'Gas that the meter counted, and in which time, with nothing else burning.',
  ['2 ft³ in 96 s', '60 L in 95 s'],
  'a volume in a time',
  parseClocked,
);

export const momentField = compound(
  'When it was read.',
  ['2025-07-15 10:15', '2025-07-15'],
  'a day, with or without the time',
  parseMoment,
);

/** Readable id: lower-case letters, digits and single hyphens. */
export const id = (help: string) =>
  z
    .string()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    .describe(help)
    .meta({ examples: ['bedroom-2'] });
export const reference = (help: string) => z.string().describe(help);
export const text = (help: string) => z.string().describe(help);
/** Name of a row of a table; editors offer them. */
export const nameFrom = (
  table: 'stations' | 'assemblies' | 'materials' | 'fittings' | 'filters' | 'instruments' | 'repairs',
  help: string,
) => z.string().describe(help).meta({ names: table });
export const flag = (help: string) => z.boolean().describe(help);
export const count = (help: string, least: number, most: number) =>
  z.int().min(least).max(most).describe(help);
