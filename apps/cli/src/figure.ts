import { displayNumber, displayUnit, formatQuantity, type UnitSystem } from '@airledger/engine';
import { FigureError } from '@airledger/engine/figures/figure-error';
import { figures } from '@airledger/engine/figures/figures';
import type { FigureAnswer, FigureDefinition, FigureInputs } from '@airledger/engine/figures/types';
import { Command, Option } from 'commander';
import { BadInput } from './bad-input.ts';
import { listOf, rangeText, readFigureOption } from './figure-option.ts';
import { unitsOption } from './job-command.ts';

/** `airledger figure NAME …`: one question answered with its formula and source. */
export const figureCommand = (): Command => {
  const command = new Command('figure')
    .description('Answer a single question with its formula and source.')
    .addHelpText('after', `\nExample:\n  ${exampleOf(figures.friction!)}`);
  for (const figure of Object.values(figures)) command.addCommand(subcommand(figure));
  return command;
};

const subcommand = (figure: FigureDefinition): Command => {
  const command = new Command(figure.name)
    .description(figure.title)
    .option('--json', 'write JSON; values are in the units of --units')
    .addOption(unitsOption())
    .exitOverride()
    .addHelpText('after', `\nExample:\n  ${exampleOf(figure)}`);
  const attributes = Object.entries(figure.options).map(([name, option]) => {
    const flag = new Option(
      `--${name} <${option.dimension === 'text' ? 'name' : 'quantity'}>`,
      helpOf(option),
    );
    if (option.dimension === 'points')
      flag.argParser((typed: string, before: string[] | undefined) => [...(before ?? []), typed]);
    command.addOption(flag);
    return [name, flag.attributeName()] as const;
  });
  return command.action((typed: Record<string, string | string[] | undefined>) => {
    const units = typed.units as UnitSystem;
    const words = attributes.flatMap(([name, attribute]) => {
      const word = typed[attribute];
      return word === undefined ? [] : [[name, word] as const];
    });
    const inputs = Object.fromEntries(
      words.map(([name, word]) => [name, readFigureOption(name, figure.options[name]!, word)]),
    );
    const answer = answerFor(figure, inputs, Object.fromEntries(words), units);
    const show = typed.json ? json : text;
    console.log(show(figure, answer, inputs, units));
  });
};

const helpOf = (option: FigureDefinition['options'][string]): string => {
  const fallback = option.default;
  const usual =
    fallback === undefined || option.dimension === 'text' || option.dimension === 'points'
      ? fallback
      : formatQuantity(fallback as number, option.dimension, 'ip');
  const notes = [
    ...(option.required ? ['needed'] : []),
    ...(option.choices ? [`one of ${listOf(option.choices)}`] : []),
    ...(usual === undefined ? [] : [`usually ${usual}`]),
    `for instance "${option.example}"`,
  ];
  return `${option.help} (${notes.join('; ')})`;
};

const exampleOf = (figure: FigureDefinition): string => {
  const options = Object.entries(figure.example).flatMap(([name, value]) =>
    value.split(';').map((one) => `--${name} "${one.trim()}"`),
  );
  return ['npx airledger figure', figure.name, ...options].join(' ');
};

const answerFor = (
  figure: FigureDefinition,
  inputs: FigureInputs,
  words: Readonly<Record<string, string | readonly string[]>>,
  units: UnitSystem,
): FigureAnswer => {
  try {
    return figure.answer(inputs);
  } catch (error) {
    if (!(error instanceof FigureError)) throw error;
    const option = figure.options[error.option];
    const expected = error.outOfRange && option ? rangeText(option, units) : error.expected;
    const word = words[error.option];
    const found =
      word === undefined
        ? ' is missing'
        : ` ${[word]
            .flat()
            .map((one) => `"${one}"`)
            .join(' ')}`;
    throw new BadInput(`--${error.option}${found}: expected ${expected}. ${error.remedy}`);
  }
};

type Show = (
  figure: FigureDefinition,
  answer: FigureAnswer,
  given: FigureInputs,
  units: UnitSystem,
) => string;

const json: Show = (figure, answer, _given, units) => {
  const amount = (value: number, dimension: Parameters<typeof displayUnit>[0]) => ({
    value: displayNumber(value, dimension, units),
    unit: displayUnit(dimension, units),
  });
  const { result, formula, source, notes, inputs } = answer;
  const input = ([name, value]: [string, FigureInputs[string]]) => {
    const { dimension, pair } = figure.options[name]!;
    if (typeof value === 'number' && dimension !== 'text' && dimension !== 'points')
      return [name, amount(value, dimension)];
    if (Array.isArray(value) && pair)
      return [name, value.map((point) => [amount(point[0], pair[0]), amount(point[1], pair[1])])];
    return [name, value];
  };
  return JSON.stringify(
    {
      figure: figure.name,
      result: Object.fromEntries(
        Object.entries(result).map(([name, { value, dimension }]) => [name, amount(value, dimension)]),
      ),
      formula,
      source,
      notes,
      inputs: Object.fromEntries(Object.entries(inputs).map(input)),
    },
    null,
    2,
  );
};

const text: Show = (figure, answer, given, units) => {
  const names = Object.keys(answer.result);
  const width = Math.max(...names.map((name) => name.length));
  const rows = Object.entries(answer.result).map(
    ([name, { value, dimension, digits }]) =>
      `${name.padEnd(width)}  ${formatQuantity(value, dimension, units, digits)}`,
  );
  const inputs = Object.entries(answer.inputs).map(([name, value]) => {
    const { dimension } = figure.options[name]!;
    const shown =
      typeof value === 'number' && dimension !== 'text' && dimension !== 'points'
        ? formatQuantity(value, dimension, units)
        : Array.isArray(value)
          ? `${value.length} readings`
          : value;
    return `${name} ${shown}${given[name] === undefined ? ' (usual value)' : ''}`;
  });
  return [
    ...rows,
    '',
    `Formula: ${answer.formula}`,
    `Source:  ${answer.source}`,
    `Inputs:  ${inputs.join(', ')}`,
    ...answer.notes.map((note) => `Note:    ${note}`),
  ].join('\n');
};
