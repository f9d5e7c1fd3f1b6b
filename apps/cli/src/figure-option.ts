import {
  type Dimension,
  dimensions,
  displayNumber,
  formatQuantity,
  parseQuantity,
  type UnitSystem,
} from '@airledger/engine';
import type { FigureInputs, FigureOption } from '@airledger/engine/figures/types';
import { BadInput } from './bad-input.ts';

/** SI value of a figure's option as typed. Throws BadInput that names option, value, expectation and remedy. */
export const readFigureOption = (
  name: string,
  option: FigureOption,
  typed: string | readonly string[],
): FigureInputs[string] => {
  if (option.dimension === 'points') return readPoints(name, option, [typed].flat());
  const word = [typed].flat().at(-1)!;
  if (option.dimension !== 'text') return readNumber(name, option, word, option.dimension);
  const choice = option.choices?.find((one) => one.toLowerCase() === word.trim().toLowerCase());
  if (choice === undefined)
    throw fault(name, word, 'is not known', `one of ${listOf(option.choices ?? [])}`, option.example);
  return choice;
};

/** Names in quotes, as some hold commas. */
export const listOf = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');

/** What an option accepts, in the user's units. */
export const rangeText = ({ dimension, least, most }: FigureOption, units: UnitSystem): string => {
  if (dimension === 'text' || dimension === 'points') return 'a value that can be used';
  const show = (value: number) => {
    const size = Math.abs(displayNumber(value, dimension, units));
    // Three figures, so that a small bound does not read as zero.
    const digits = size === 0 ? 0 : Math.max(0, 2 - Math.floor(Math.log10(size)));
    return formatQuantity(value, dimension, units, digits);
  };
  if (least === undefined) return `at most ${show(most!)}`;
  return most === undefined ? `at least ${show(least)}` : `${show(least)} to ${show(most)}`;
};

const readNumber = (name: string, option: FigureOption, typed: string, dimension: Dimension): number => {
  const parsed = parseQuantity(typed, dimension);
  const { called, examples } = dimensions[dimension];
  const expected = `${called} such as ${examples.join(' or ')}`;
  if ('problem' in parsed) throw fault(name, typed, parsed.problem, expected, option.example);
  if (parsed.low !== undefined)
    throw fault(name, typed, 'is a range', `one value, ${expected}`, option.example);
  return parsed.value;
};

const readPoints = (name: string, option: FigureOption, typed: readonly string[]) =>
  typed
    .flatMap((one) => one.split(';'))
    .filter((one) => one.trim() !== '')
    .map((one) => {
      const halves = one.split(/,(?!\d{3}\b)/);
      if (halves.length !== 2)
        throw fault(name, one.trim(), 'is not a pair', 'two quantities with a comma between', option.example);
      const [first, second] = option.pair!;
      return [
        readNumber(name, option, halves[0]!, first),
        readNumber(name, option, halves[1]!, second),
      ] as const;
    });

const fault = (name: string, typed: string, problem: string, expected: string, example: string): BadInput =>
  new BadInput(
    `--${name} "${typed}" ${problem}: expected ${expected}. Write for instance --${name} "${example}".`,
  );
