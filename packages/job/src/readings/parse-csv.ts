/** Rows of a CSV text: comma, semicolon or tab by what its first line holds most of; quotes as in RFC 4180. */
export const parseCsv = (text: string): readonly (readonly string[])[] => {
  const body = text.replace(/^\uFEFF/, '');
  const separator = separatorOf(body);
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  const endCell = () => {
    row.push(cell.trim());
    cell = '';
  };
  const endRow = () => {
    endCell();
    if (row.some((each) => each !== '')) rows.push(row);
    row = [];
  };
  for (let i = 0; i < body.length; i++) {
    const character = body[i]!;
    if (quoted) {
      if (character !== '"') cell += character;
      else if (body[i + 1] === '"') {
        cell += '"';
        i++;
      } else quoted = false;
    } else if (character === '"' && cell.trim() === '') {
      quoted = true;
      cell = '';
    } else if (character === separator) endCell();
    else if (character === '\n') endRow();
    else if (character !== '\r') cell += character;
  }
  endRow();
  return rows;
};

const separatorOf = (text: string): string => {
  const first = text.split('\n', 1)[0] ?? '';
  const count = (separator: string) => first.split(separator).length;
  return ['\t', ';', ','].reduce((best, each) => (count(each) > count(best) ? each : best));
};
