import { figures } from '@airledger/engine/figures/figures';
import { CommanderError } from 'commander';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { BadInput } from './bad-input.ts';
import { figureCommand } from './figure.ts';

afterEach(() => vi.restoreAllMocks());

/** What the command prints for these words. */
const run = (...words: string[]): string => {
  const print = vi.spyOn(console, 'log').mockImplementation(() => {});
  figureCommand().parse(words, { from: 'user' });
  return print.mock.calls.flat().join('\n');
};
const fault = (...words: string[]): string => {
  try {
    run(...words);
  } catch (error) {
    expect(error).toBeInstanceOf(BadInput);
    return (error as BadInput).message;
  }
  return '';
};
const help = (name: string): string => {
  let text = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((chunk) => {
    text += chunk;
    return true;
  });
  expect(() => figureCommand().parse([name, '--help'], { from: 'user' })).toThrow(CommanderError);
  vi.restoreAllMocks();
  return text;
};

describe('airledger figure', () => {
  it('answers with formula, source and the air it stands on', () => {
    const text = run('friction', '--diameter', '6 in', '--flow', '100 cfm', '--material', 'galvanized');
    expect(text).toMatch(/^friction rate +0\.083 in\.wc\/100 ft$/m);
    expect(text).toMatch(/^Formula: /m);
    expect(text).toMatch(/^Source: +ASHRAE/m);
    expect(text).toContain('0.075 lb/ft³');
    expect(text).toContain('slack 0 % (usual value)');
  });

  it('shows SI when asked', () => {
    const text = run('friction', '--diameter', '150 mm', '--flow', '47 L/s', '--units', 'si');
    expect(text).toMatch(/^friction rate +0\.7\d Pa\/m$/m);
  });

  it('writes JSON with a unit on every value', () => {
    const json = JSON.parse(run('friction', '--diameter', '6 in', '--flow', '100 cfm', '--json'));
    expect(json.result['friction rate'].value).toBeCloseTo(0.083, 3);
    expect(json.result['friction rate'].unit).toBe('in.wc/100 ft');
    expect(json.inputs.flow).toEqual({ value: expect.closeTo(100, 9), unit: 'cfm' });
    expect(json.inputs.material).toBe('galvanized');
    expect(json.source).toContain('ASHRAE');
  });

  it('reads a pair for each reading of a test', () => {
    const points = ['10 Pa, 57.7 cfm', '25 Pa, 100 cfm', '40 Pa, 132.6 cfm'].flatMap((one) => [
      '--point',
      one,
    ]);
    expect(run('leakage-fit', ...points)).toMatch(/^exponent +0\.600\d$/m);
  });

  it.each(Object.keys(figures))('%s: the example of its help works as pasted', (name) => {
    const line = help(name).match(/npx airledger figure (.*)/)![1]!;
    const words = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);
    expect(run(...words)).toMatch(/^Source: /m);
  });
});

describe('bad input names option, value, expectation and remedy', () => {
  it.each([
    [
      ['friction', '--diameter', '6 apples', '--flow', '100 cfm'],
      ['--diameter', '6 apples', 'a size', '6 in'],
    ],
    [
      ['friction', '--diameter', '6 in', '--flow', '100'],
      ['--flow', '100', 'has no unit', 'an airflow', '100 cfm'],
    ],
    [
      ['friction', '--diameter', '600 in', '--flow', '100 cfm'],
      ['--diameter', '600 in', '118 in', 'unit'],
    ],
    [
      ['friction', '--flow', '100 cfm'],
      ['--diameter', 'missing', 'one section', 'size of the duct'],
    ],
    [
      ['friction', '--diameter', '6 in'],
      ['--flow', 'missing', '100 cfm'],
    ],
    [
      ['friction', '--diameter', '6 in', '--flow', '80 to 100 cfm'],
      ['--flow', '80 to 100 cfm', 'range', 'one value'],
    ],
    [
      ['friction', '--diameter', '6 in', '--flow', '100 cfm', '--material', 'marble'],
      ['--material', 'marble', '"galvanized"'],
    ],
    [
      ['leakage-fit', '--point', '10 Pa'],
      ['--point', '10 Pa', 'two quantities', '25 Pa, 100 cfm'],
    ],
  ])('%j', (words, parts) => {
    const message = fault(...words);
    for (const part of parts) expect(message).toContain(part);
  });

  it('shows the range in the units asked for', () => {
    expect(fault('friction', '--diameter', '600 in', '--flow', '100 cfm', '--units', 'si')).toContain(
      '20.0 mm to 3000 mm',
    );
  });
});
