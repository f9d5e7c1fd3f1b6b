import type { ReactNode } from 'react';

export type DataColumn = {
  readonly head: string;
  readonly unit?: string;
  readonly number?: boolean;
  /** Share of the table's width, %; as the content asks when absent. */
  readonly width?: number;
};

export type DataTableProps = {
  readonly caption: string;
  readonly columns: readonly DataColumn[];
  /** Heads over several columns, in order; together they span all but the first column. */
  readonly groups?: readonly { readonly head: string; readonly span: number }[];
  /** First cell of a row is its head. */
  readonly rows: readonly (readonly ReactNode[])[];
  /** Last rows that sum up. */
  readonly totals?: readonly (readonly ReactNode[])[];
  /** A plain sentence under the table. */
  readonly note?: string;
  /** Rows are tall enough to be written in by hand. */
  readonly toFillIn?: boolean;
};

/** Tables up to this many rows are not broken over pages. */
const fitsOnPage = 12;

/** A table that a screen reader and a printer understand: caption, heads with scope, heads repeated on every page. */
export const DataTable = ({
  caption,
  columns,
  groups,
  rows,
  totals = [],
  note,
  toFillIn,
}: DataTableProps) => (
  <figure
    className={[
      'table',
      ...(columns.slice(1).every(({ number }) => number) ? ['figures'] : []),
      ...(rows.length <= fitsOnPage ? ['whole'] : []),
      ...(toFillIn ? ['to-fill-in'] : []),
    ].join(' ')}
  >
    <table>
      <caption>{caption}</caption>
      <colgroup>
        {columns.map(({ width }, c) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other identity
          <col key={c} style={width === undefined ? undefined : { width: `${width}%` }} />
        ))}
      </colgroup>
      <thead>
        {groups && (
          <tr>
            <td />
            {groups.map(({ head, span }) => (
              <th key={head} scope="colgroup" colSpan={span} className="group">
                {head}
              </th>
            ))}
          </tr>
        )}
        <tr>
          {columns.map(({ head, unit, number }, c) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other identity
            <th key={c} scope="col" className={number ? 'number' : undefined}>
              {head}
              {unit && <span className="unit"> {unit}</span>}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>{rows.map((row, r) => tableRow(columns, row, r))}</tbody>
      {totals.length > 0 && <tfoot>{totals.map((row, r) => tableRow(columns, row, r))}</tfoot>}
    </table>
    {note && <figcaption>{note}</figcaption>}
  </figure>
);

const tableRow = (columns: readonly DataColumn[], row: readonly ReactNode[], key: number) => (
  <tr key={key}>
    {row.map((cell, c) =>
      c === 0 ? (
        // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other identity
        <th key={c} scope="row">
          {cell}
        </th>
      ) : (
        // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other identity
        <td key={c} className={columns[c]?.number ? 'number' : undefined}>
          {cell}
        </td>
      ),
    )}
  </tr>
);
