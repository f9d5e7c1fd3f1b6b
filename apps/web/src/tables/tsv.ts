/** Cells of a text as spreadsheets put it on the clipboard: tabs between cells, quotes around cells with line ends. */
export const parseTsv = (text: string): readonly (readonly string[])[] => {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  const endCell = () => {
    rows.at(-1)!.push(cell.trim());
    cell = '';
  };
  for (let i = 0; i < text.length; i++) {
    const letter = text[i]!;
    if (quoted) {
      if (letter !== '"') cell += letter;
      else if (text[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = false;
      // Inches follow their number: a quote opens a cell only at its start.
    } else if (letter === '"' && cell === '') quoted = true;
    else if (letter === '\t') endCell();
    else if (letter === '\n') {
      endCell();
      rows.push([]);
    } else if (letter !== '\r') cell += letter;
  }
  endCell();
  // Empty rows in the midst keep their place, so that what stands below them does not move up.
  return rows.slice(0, rows.findLastIndex((row) => !isEmpty(row)) + 1);
};

export const isEmpty = (row: readonly string[]): boolean => row.every((cell) => cell === '');

/** Rows of cells as text for a spreadsheet. */
export const toTsv = (rows: readonly (readonly string[])[]): string =>
  rows
    .map((row) =>
      row.map((cell) => (/[\t\n"]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join('\t'),
    )
    .join('\n');
