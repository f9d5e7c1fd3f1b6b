import { FigureError } from './figure-error.ts';
import type {
  FigureAnswer,
  FigureDefinition,
  FigureInputs,
  FigureOption,
  FigureOptions,
  InputsOf,
} from './types.ts';

type Definition<O extends FigureOptions> = {
  readonly name: string;
  readonly title: string;
  readonly options: O;
  readonly example: Readonly<Record<string, string>>;
  readonly answer: (
    inputs: InputsOf<O>,
  ) => Omit<FigureAnswer, 'inputs' | 'notes'> & { readonly notes?: readonly string[] };
};

/**
 * Turns a typed figure into one that takes any inputs: fills defaults in, refuses what is missing, unknown or
 * out of range, and gives the inputs back with the answer.
 */
export function defineFigure<const O extends FigureOptions>(definition: Definition<O>): FigureDefinition {
  return {
    ...definition,
    answer: (given) => {
      const inputs = complete(definition.options, given);
      // The options were checked one by one above, so the inputs have the declared types.
      const answer = definition.answer(inputs as InputsOf<O>);
      return { notes: [], ...answer, inputs };
    },
  };
}

function complete(options: FigureOptions, given: FigureInputs): FigureInputs {
  for (const name of Object.keys(given))
    if (!(name in options))
      throw new FigureError(name, `one of ${Object.keys(options).join(', ')}`, 'Leave it out.');
  const inputs: Record<string, FigureInputs[string]> = {};
  for (const [name, option] of Object.entries(options)) {
    const value = given[name] ?? option.default;
    if (value === undefined) {
      if (option.required) throw new FigureError(name, `a value such as ${option.example}`, option.help);
      continue;
    }
    check(name, option, value);
    inputs[name] = value;
  }
  return inputs;
}

function check(name: string, option: FigureOption, value: FigureInputs[string]): void {
  const { dimension, choices, least, most, example } = option;
  const kind = dimension === 'text' ? 'string' : dimension === 'points' ? 'object' : 'number';
  if (typeof value !== kind || (typeof value === 'number' && !Number.isFinite(value)))
    throw new FigureError(name, `a value such as ${example}`, option.help);
  if (choices && !choices.includes(value as string))
    throw new FigureError(name, `one of ${choices.join(', ')}`, 'Choose one of the list.');
  if (typeof value !== 'number') return;
  if ((least !== undefined && value < least) || (most !== undefined && value > most))
    throw new FigureError(
      name,
      rangeText(least, most),
      `Check the value and its unit, for instance ${example}.`,
      true,
    );
}

// Only the bound itself is named, in SI: the reader's unit system is not known here.
function rangeText(least?: number, most?: number): string {
  const short = (value: number) => Number(value.toPrecision(4)).toString();
  if (least === undefined) return `at most ${short(most!)} in SI units`;
  return most === undefined
    ? `at least ${short(least)} in SI units`
    : `${short(least)} to ${short(most)} in SI units`;
}
