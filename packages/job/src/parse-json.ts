/** Where a text stops being JSON, and what was expected there. */
type JsonError = {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
};

const foundAt = (text: string, at: number): string => {
  if (at >= text.length) return 'the end of the file';
  return text[at] === '"' ? 'a quote' : JSON.stringify(text[at]);
};

class Stop extends Error {
  readonly at: number;
  readonly expected: string;
  constructor(at: number, expected: string) {
    super(expected);
    this.at = at;
    this.expected = expected;
  }
}

const escapes: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};
const words = new Map<string, unknown>([
  ['true', true],
  ['false', false],
  ['null', null],
]);

/**
 * JSON text as a value. Own, because engines word and place their errors differently,
 * and because a field written twice has to be an error and not a silent loss.
 */
export const parseJson = (text: string): { readonly value: unknown } | { readonly error: JsonError } => {
  let at = text.startsWith('\ufeff') ? 1 : 0;
  const stop = (expected: string, where = at): never => {
    throw new Stop(where, expected);
  };
  const space = (): void => {
    while (at < text.length && ' \t\r\n'.includes(text[at]!)) at++;
  };
  const string = (): string => {
    const start = at++;
    let result = '';
    for (;;) {
      const c = text[at];
      if (c === undefined || c === '\n') return stop('a closing quote for the text that starts here', start);
      at++;
      if (c === '"') return result;
      if (c < ' ') return stop('no tab or control sign inside a text', at - 1);
      if (c !== '\\') {
        result += c;
        continue;
      }
      const sign = text[at++] ?? '';
      if (sign === 'u') {
        const code = text.slice(at, at + 4);
        if (!/^[0-9a-f]{4}$/i.test(code)) return stop('four hexadecimal digits after \\u');
        result += String.fromCharCode(Number.parseInt(code, 16));
        at += 4;
      } else result += escapes[sign] ?? stop('a known escape after the backslash', at - 1);
    }
  };
  const list = (): unknown[] => {
    const items: unknown[] = [];
    at++;
    space();
    if (text[at] === ']') at++;
    else
      for (;;) {
        items.push(value('a value, or ] to close the list'));
        space();
        if (text[at] === ']') {
          at++;
          break;
        }
        if (text[at] !== ',') stop('a comma or ] after a value of a list');
        at++;
      }
    return items;
  };
  const record = (): Record<string, unknown> => {
    const fields = new Map<string, unknown>();
    at++;
    space();
    if (text[at] === '}') at++;
    else
      for (;;) {
        space();
        if (text[at] !== '"') stop('a field name in double quotes');
        const start = at;
        const name = string();
        if (fields.has(name)) stop(`the field "${name}" only once in its record`, start);
        space();
        if (text[at] !== ':') stop(`a colon after the field name "${name}"`);
        at++;
        fields.set(name, value('a value'));
        space();
        if (text[at] === '}') {
          at++;
          break;
        }
        if (text[at] !== ',') stop('a comma or } after a field');
        at++;
      }
    return Object.fromEntries(fields);
  };
  const value = (expected: string): unknown => {
    space();
    const c = text[at];
    if (c === '"') return string();
    if (c === '{') return record();
    if (c === '[') return list();
    const number = /^-?(0|[1-9]\d*)(\.\d+)?([eE][-+]?\d+)?/.exec(text.slice(at, at + 40));
    if (number) {
      at += number[0].length;
      return Number(number[0]);
    }
    const word = /^[a-z]+/.exec(text.slice(at, at + 10))?.[0] ?? '';
    if (!words.has(word)) return stop(expected);
    at += word.length;
    return words.get(word);
  };
  try {
    const result = value('a record that starts with {');
    space();
    if (at < text.length) stop('nothing after the end of the record');
    return { value: result };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    const before = text.slice(0, error.at).split('\n');
    const found = foundAt(text, error.at);
    return {
      error: { line: before.length, column: before.at(-1)!.length + 1, found, expected: error.expected },
    };
  }
};
