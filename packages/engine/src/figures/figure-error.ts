/** An input that a figure can not use: which option, what it was, what is expected and what to do. */
export class FigureError extends Error {
  readonly option: string;
  readonly expected: string;
  readonly remedy: string;
  /** True when `expected` is the option's own range, which a reader may want in other units. */
  readonly outOfRange: boolean;

  constructor(option: string, expected: string, remedy: string, outOfRange = false) {
    super(`${option}: expected ${expected}. ${remedy}`);
    this.name = 'FigureError';
    this.option = option;
    this.expected = expected;
    this.remedy = remedy;
    this.outOfRange = outOfRange;
  }
}
