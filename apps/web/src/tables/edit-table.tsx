import type { Fact } from '@airledger/engine';
import { useMemo, useState } from 'react';
import { useResolvedJob } from '../document/document.ts';
import { editValues } from '../forms/edit-values.ts';
import { goTo } from '../forms/open-record.ts';
import { useSmallFormat } from '../forms/use-edited-field.ts';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { BulkEdit } from './bulk-edit.tsx';
import { cellText } from './cell-text.ts';
import { type CellFaults, fillCells, type RowEdit, wholeRow } from './fill-cells.ts';
import { Grid, type GridRow } from './grid.tsx';
import { pastedRows } from './pasted-rows.ts';
import { type Column, rowName, type TableKind } from './table-kinds.ts';
import { parseTsv } from './tsv.ts';
import './tables.css';

type Draft = {
  readonly key: string;
  readonly owner?: string;
  readonly cells: Readonly<Record<string, string>>;
};

let drafts_made = 0;
const newDraft = (): Draft => ({ key: `new ${++drafts_made}`, cells: {} });

/** One kind of record as a table to type in and to paste into, with search, and one property set for many rows. */
export const EditTable = ({ table }: { table: TableKind }) => {
  const job = useResolvedJob();
  const units = useWorkbench((state) => state.units);
  const facts = useBaseSurvey()?.facts;
  const format = useSmallFormat();
  const [find, setFind] = useState('');
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [drafts, setDrafts] = useState<readonly Draft[]>(() => (table.begin ? [newDraft()] : []));
  const [faults, setFaults] = useState<CellFaults>({});
  const [typed, setTyped] = useState<Readonly<Record<string, Readonly<Record<string, string>>>>>({});
  const rows = useMemo(() => (job ? table.rows(job) : []), [job, table]);
  if (!job) return null;

  const filledIn = ({ value, typed: words }: Fact, { kind }: Column) =>
    kind.kind === 'quantity' && value !== undefined ? format(value, kind.dimension) : words;
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  const all: readonly GridRow[] = rows.map((row) => ({
    key: row.path,
    name: rowName(job, row),
    owner: row.owner,
    isNew: false,
    fault: faults[row.path]?.[wholeRow],
    cells: table.columns.map((column) => {
      const path = `${row.path}/${column.key}`;
      const fact = facts?.[path];
      return {
        text: typed[row.path]?.[column.key] ?? cellText(job, path, column),
        filledIn: fact?.defaulted ? filledIn(fact, column) : undefined,
        fault: faults[row.path]?.[column.key],
      };
    }),
  }));
  const shown = all.filter((row) => {
    const text = ['', row.name, row.owner, ...row.cells.map((cell) => cell.text || cell.filledIn)]
      .join(' ')
      .toLowerCase();
    return words.every((word) => text.includes(` ${word}`));
  });
  const begun: readonly GridRow[] = drafts.map((draft) => ({
    key: draft.key,
    name: 'new row',
    owner: draft.owner ?? '',
    isNew: true,
    fault: faults[draft.key]?.[wholeRow],
    cells: table.columns.map(({ key }) => ({
      text: draft.cells[key] ?? '',
      fault: faults[draft.key]?.[key],
    })),
  }));

  const fill = (label: string, edits: readonly RowEdit[]) => {
    if (edits.length === 0) return;
    const { faults: found } = fillCells(label, table, edits, units);
    const touched = new Set(edits.map(({ key }) => key));
    const kept = Object.fromEntries(Object.entries(faults).filter(([key]) => !touched.has(key)));
    setFaults({ ...kept, ...found });
    // What was refused stays as it was typed, so that it can be put right.
    const keep = Object.fromEntries(Object.entries(typed).filter(([key]) => !touched.has(key)));
    for (const each of edits) {
      const bad = Object.keys(found[each.key] ?? {}).filter((key) => key in each.cells);
      if (each.path !== undefined && bad.length > 0)
        keep[each.key] = Object.fromEntries(bad.map((key) => [key, each.cells[key]!]));
    }
    setTyped(keep);
    if (!table.begin) return;
    const refused = edits.filter(({ path, key }) => path === undefined && found[key]);
    const others = drafts.filter(({ key, cells }) => !touched.has(key) && Object.keys(cells).length > 0);
    setDrafts([...others, ...refused.map(({ key, owner, cells }) => ({ key, owner, cells })), newDraft()]);
  };

  const commit = (key: string, column: number, text: string) => {
    const draft = drafts.find((each) => each.key === key);
    const isOwner = column < 0;
    const field = isOwner ? '' : table.columns[column]!.key;
    if (draft) {
      const owner = isOwner ? text : draft.owner;
      const cells = isOwner ? draft.cells : { ...draft.cells, [field]: text };
      return fill(`${table.title}: row added`, [{ key, owner, cells }]);
    }
    return fill(`${table.title}: ${table.columns[column]!.label.toLowerCase()}`, [
      { key, path: key, cells: { [field]: text } },
    ]);
  };

  const paste = (text: string, row: number, column: number) => {
    const shownRows = shown.map(({ key }) => rows.find(({ path }) => path === key)!);
    const edits = pastedRows(job, table, shownRows, parseTsv(text), { row, column }, () => newDraft().key);
    fill(
      `${table.title}: pasted`,
      edits.filter(
        ({ path, cells }) => path !== undefined || table.begin !== undefined || cells === undefined,
      ),
    );
  };

  const picked = shown.filter(({ key }) => chosen.has(key));
  const remove = () => {
    // From the last to the first, so that places in a list stay true.
    const paths = picked.map(({ key }) => key).toReversed();
    const result = editValues(
      `${table.title}: ${paths.length} removed`,
      paths.map((path) => ({ path, value: undefined })),
    );
    if (result.ok) setChosen(new Set());
    else setFaults({ [paths[0]!]: { [wholeRow]: result.errors[0]?.message ?? 'This cannot be removed.' } });
  };

  return (
    <>
      <div className="table-tools">
        <input
          type="search"
          aria-label={`Find in ${table.title.toLowerCase()}`}
          placeholder="Find rows"
          value={find}
          onChange={(event) => setFind(event.target.value)}
        />
        <span className="quiet" role="status">
          {shown.length} of {all.length}
          {picked.length > 0 && `, ${picked.length} chosen`}
        </span>
        {picked.length > 0 && (
          <BulkEdit
            job={job}
            columns={table.columns}
            paths={picked.map(({ key }) => key)}
            onSet={(column, text) =>
              fill(
                `${table.title}: ${column.label.toLowerCase()} of ${picked.length} rows`,
                picked.map(({ key }) => ({ key, path: key, cells: { [column.key]: text } })),
              )
            }
            onRemove={remove}
          />
        )}
      </div>
      <Grid
        job={job}
        table={table}
        rows={[...shown, ...begun]}
        chosen={chosen}
        onChoose={setChosen}
        onCommit={commit}
        onPaste={paste}
        onOpen={goTo}
      />
    </>
  );
};
