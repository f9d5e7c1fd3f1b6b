import type { Job } from '@airledger/job';
import type { RowEdit } from './fill-cells.ts';
import { type Row, rowName, type TableKind } from './table-kinds.ts';
import { isEmpty } from './tsv.ts';

type Place = { readonly row: number; readonly column: number };

/** Heads of a table as a spreadsheet may have them, by lower-case text. */
const headOf = (table: TableKind, text: string): string | undefined => {
  const wanted = text.trim().toLowerCase();
  if (table.ownerLabel?.toLowerCase() === wanted) return 'owner';
  return table.columns.find(
    ({ key, label }) => label.toLowerCase() === wanted || key.toLowerCase() === wanted,
  )?.key;
};

/**
 * Rows pasted from a spreadsheet. With a row of heads, columns go by head and rows by name: known ones are changed,
 * others added. Without, cells go to the right and down from `at`, and what reaches beyond the last row is added.
 */
export const pastedRows = (
  job: Job,
  table: TableKind,
  rows: readonly Row[],
  pasted: readonly (readonly string[])[],
  at: Place,
  newKey: (i: number) => string,
): readonly RowEdit[] => {
  const heads = pasted[0]?.map((cell) => headOf(table, cell)) ?? [];
  const named = heads.filter((head) => head !== undefined).length;
  if (named >= 2 || (named === 1 && heads.length === 1)) return byHeads();
  return pasted.flatMap((cells, i): readonly RowEdit[] => {
    const row = rows[at.row + i];
    if (!row && isEmpty(cells)) return [];
    const texts = Object.fromEntries(
      cells.flatMap((cell, j) => {
        const column = table.columns[at.column + j];
        return column ? [[column.key, cell]] : [];
      }),
    );
    return [row ? { key: row.path, path: row.path, cells: texts } : { key: newKey(i), cells: texts }];
  });

  function byHeads(): readonly RowEdit[] {
    const byName = new Map(rows.map((row) => [rowName(job, row).toLowerCase(), row]));
    return pasted
      .slice(1)
      .filter((cells) => !isEmpty(cells))
      .map((cells, i): RowEdit => {
        const texts = Object.fromEntries(
          heads.flatMap((head, j) =>
            head === undefined || head === 'owner' ? [] : [[head, cells[j] ?? '']],
          ),
        );
        const owner = cells[heads.indexOf('owner')];
        const known =
          table.ownerLabel === undefined && texts.name ? byName.get(texts.name.toLowerCase()) : undefined;
        if (known) return { key: known.path, path: known.path, cells: texts };
        // An empty cell of a new row says nothing; of a known one it takes the value away.
        const said = Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== ''));
        return { key: newKey(i), cells: said, ...(owner !== undefined && { owner }) };
      });
  }
};
