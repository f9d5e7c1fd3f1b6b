import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../units/parse-quantity.ts';
import { FigureError } from './figure-error.ts';
import { figures } from './figures.ts';
import type { FigureDefinition, FigureInputs } from './types.ts';

const all = Object.values(figures).map((figure) => [figure.name, figure] as const);

/** What a person types, as SI inputs. */
const typed = (figure: FigureDefinition, words: Readonly<Record<string, string>>): FigureInputs =>
  Object.fromEntries(
    Object.entries(words).map(([name, word]) => {
      const { dimension, pair } = figure.options[name]!;
      const number = (text: string, of: Parameters<typeof parseQuantity>[1]) => {
        const parsed = parseQuantity(text.trim(), of);
        if ('problem' in parsed) throw new Error(`${name} "${text}" ${parsed.problem}`);
        return parsed.value;
      };
      if (dimension === 'text') return [name, word];
      if (dimension !== 'points') return [name, number(word, dimension)];
      const points = word.split(';').map((one) => one.split(',').map((half, i) => number(half, pair![i]!)));
      return [name, points as unknown as FigureInputs[string]];
    }),
  );
const example = (figure: FigureDefinition): FigureInputs => typed(figure, figure.example);

describe.each(all)('%s', (_, figure) => {
  it('answers its own example with figures, formula and source', () => {
    const answer = figure.answer(example(figure));
    expect(Object.keys(answer.result).length).toBeGreaterThan(0);
    for (const { value } of Object.values(answer.result)) expect(value).toSatisfy(Number.isFinite);
    expect(answer.formula).not.toBe('');
    expect(answer.source).not.toBe('');
  });

  it('has options whose examples can be read and are in range', () => {
    for (const [name, option] of Object.entries(figure.options)) {
      const { [name]: value } = typed(figure, { [name]: option.example });
      if (typeof value === 'number') {
        expect(value).toBeGreaterThanOrEqual(option.least ?? value);
        expect(value).toBeLessThanOrEqual(option.most ?? value);
      }
      if (option.choices) expect(option.choices).toContain(value);
    }
  });

  it('names a missing, an unknown and an impossible option', () => {
    const inputs = example(figure);
    const fault = (given: FigureInputs) => {
      try {
        figure.answer(given);
      } catch (error) {
        return error instanceof FigureError ? error.option : error;
      }
      return 'none';
    };
    expect(fault({ ...inputs, colour: 1 })).toBe('colour');
    for (const [name, option] of Object.entries(figure.options)) {
      if (option.required) expect(fault({ ...inputs, [name]: undefined })).toBe(name);
      if (option.most !== undefined) expect(fault({ ...inputs, [name]: option.most * 1.01 + 1 })).toBe(name);
      if (option.choices) expect(fault({ ...inputs, [name]: 'nothing of the kind' })).toBe(name);
      if (option.dimension !== 'text' && option.dimension !== 'points')
        expect(fault({ ...inputs, [name]: Number.NaN })).toBe(name);
    }
  });

  it('gives back the inputs it used, usual values included', () => {
    const { inputs } = figure.answer(example(figure));
    for (const [name, option] of Object.entries(figure.options))
      if (option.default !== undefined) expect(inputs[name]).toBeDefined();
  });
});

describe('how figures move', () => {
  const value = (name: string, result: string, inputs: FigureInputs) =>
    figures[name]!.answer({ ...example(figures[name]!), ...inputs }).result[result]!.value;
  const flow = fc.double({ min: 0.01, max: 1, noNaN: true });

  it('more air in the same duct costs more friction', () => {
    fc.assert(
      fc.property(flow, fc.double({ min: 0.1, max: 0.6, noNaN: true }), (small, diameter) => {
        const rate = (of: number) => value('friction', 'friction rate', { diameter, flow: of });
        expect(rate(small * 1.05)).toBeGreaterThan(rate(small));
      }),
    );
  });

  it('more insulation never loses more heat', () => {
    fc.assert(
      fc.property(flow, fc.double({ min: 0.2, max: 3, noNaN: true }), (air, insulation) => {
        const heat = (of: number) => value('temperature', 'heat gained', { flow: air, insulation: of });
        expect(heat(insulation * 1.1)).toBeLessThanOrEqual(heat(insulation));
      }),
    );
  });

  it('more supply leakage never delivers more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.25, noNaN: true }), (leakage) => {
        const share = (of: number) => value('delivery', 'delivery efficiency', { 'supply-leakage': of });
        expect(share(leakage + 0.01)).toBeLessThan(share(leakage));
      }),
    );
  });

  it('damper air asks for more insulation', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.4, max: 0.95, noNaN: true }), (humidity) => {
        const needed = (of: number) => value('condensation', 'insulation needed', { humidity: of });
        expect(needed(humidity + 0.01)).toBeGreaterThanOrEqual(needed(humidity));
      }),
    );
  });
});

describe('choices between options', () => {
  const { friction, temperature, delivery, condensation } = figures as Record<string, FigureDefinition>;

  it('one section only, and whole', () => {
    const flow = 0.05;
    expect(() => friction!.answer({ flow })).toThrow(/one section/);
    expect(() => friction!.answer({ flow, diameter: 0.2, width: 0.2, height: 0.2 })).toThrow(/one section/);
    expect(() => friction!.answer({ flow, width: 0.2 })).toThrow(/height/);
    expect(() => friction!.answer({ flow, major: 0.1, minor: 0.2 })).toThrow(/short side/);
  });

  it('slack belongs to flex', () => {
    expect(() => friction!.answer({ flow: 0.05, diameter: 0.15, slack: 0.1 })).toThrow(/flexible/);
  });

  it('either a label or a thickness', () => {
    const run = example(temperature!);
    expect(() => temperature!.answer({ ...run, thickness: 0.05 })).toThrow(/either/);
    expect(() => temperature!.answer({ ...run, insulation: undefined })).toThrow(/either/);
    const thick = temperature!.answer({ ...run, insulation: undefined, thickness: 0.05 });
    expect(thick.result['leaving temperature']!.value).toSatisfy(Number.isFinite);
  });

  it('both humidities or neither', () => {
    const inputs = { ...example(delivery!), mode: 'cooling', 'indoor-humidity': 0.5 };
    expect(() => delivery!.answer(inputs)).toThrow(/both humidities/);
  });

  it('says that saturated air can not be held off', () => {
    expect(() => condensation!.answer({ ...example(condensation!), humidity: 1 })).toThrow(/saturated/);
  });
});
