import { styleText } from 'node:util';

type Style = Parameters<typeof styleText>[0];

/** Text in a style on a terminal; as it is when piped or when NO_COLOR is set. */
export const paint = (style: Style, text: string): string =>
  process.stdout.isTTY && !process.env.NO_COLOR ? styleText(style, text) : text;
