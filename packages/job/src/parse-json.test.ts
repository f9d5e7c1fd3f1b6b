import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseJson } from './parse-json.ts';

describe('parseJson', () => {
  test('reads what JSON.stringify writes', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const parsed = parseJson(JSON.stringify(value, null, 1));
        expect(parsed).toEqual({ value: JSON.parse(JSON.stringify(value)) });
      }),
    );
  });

  test('accepts and refuses as JSON.parse does, but for a field written twice', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '"b"',
      '1',
      '-0.5e3',
      '01',
      'true',
      'nul',
      ' ',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 9 }), (list) => {
        const text = list.join('');
        let native: unknown;
        try {
          native = { value: JSON.parse(text) };
        } catch {
          native = undefined;
        }
        const ours = parseJson(text);
        if ('value' in ours) expect(ours).toEqual(native);
        else if (native !== undefined) expect(ours.error.expected).toContain('only once');
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    ['{"a": 1\n "b": 2}', 2, 2, 'a quote', 'a comma or } after a field'],
    ['{\n  "a": }', 2, 8, '"}"', 'a value'],
    ['{"a": "x\ny"}', 1, 7, 'a quote', 'a closing quote for the text that starts here'],
    ['{"a": "\\q"}', 1, 9, '"q"', 'a known escape after the backslash'],
    ['[1, 2', 1, 6, 'the end of the file', 'a comma or ] after a value of a list'],
    ['{} {}', 1, 4, '"{"', 'nothing after the end of the record'],
  ])('%j', (text, line, column, found, expected) =>
    expect(parseJson(text)).toEqual({ error: { line, column, found, expected } }),
  );
});
