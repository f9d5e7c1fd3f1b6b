/** A column of a text table: its head, with a second line for the unit; numbers stand right. */
export type Column = { readonly head: string; readonly unit?: string; readonly align?: 'left' | 'right' };

const gap = '  ';

/** Rows of texts in aligned columns, heads underlined; no space at line ends. */
export const table = (columns: readonly Column[], rows: readonly (readonly string[])[]): string => {
  const units = columns.some((column) => column.unit) ? [columns.map((column) => column.unit ?? '')] : [];
  const heads = [columns.map((column) => column.head), ...units];
  const widths = columns.map((_, c) => Math.max(...[...heads, ...rows].map((row) => (row[c] ?? '').length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, c) => (columns[c]!.align === 'right' ? cell.padStart(widths[c]!) : cell.padEnd(widths[c]!)))
      .join(gap)
      .trimEnd();
  return [...heads.map(line), line(widths.map((width) => '─'.repeat(width))), ...rows.map(line)].join('\n');
};

export const left = (head: string): Column => ({ head, align: 'left' });
export const right = (head: string, unit = ''): Column => ({ head, unit, align: 'right' });
