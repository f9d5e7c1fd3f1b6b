import type { UnitSystem } from '@airledger/engine';
import { type Job, type JobError, uniqueId, valueAt } from '@airledger/job';
import { edit } from '../document/document.ts';
import { errorAt, withEntries } from '../forms/edit-values.ts';
import { setValue } from '../forms/set-value.ts';
import { cellValue } from './cell-text.ts';
import type { Begun, TableKind } from './table-kinds.ts';

/** Texts for the cells of one row, by column key: of a record that is there, or of one to be added. */
export type RowEdit = {
  /** Identity of the row in the table; of a row that is there its path. */
  readonly key: string;
  readonly path?: string;
  readonly owner?: string;
  readonly cells: Readonly<Record<string, string>>;
};

/** What was not taken: by row key and column key, with what would do. */
export type CellFaults = Readonly<Record<string, Readonly<Record<string, string>>>>;

export type Filled = { readonly faults: CellFaults; readonly done: boolean; readonly label: string };

/** Fault of a row as a whole stands under this key. */
export const wholeRow = '';

type Placed = { readonly edit: RowEdit; readonly path: string };

/**
 * Types the cells of many rows into the state in view as one step. What the job would not take is left out and told
 * by cell; a new row is added when it is whole.
 */
export const fillCells = (
  label: string,
  table: TableKind,
  edits: readonly RowEdit[],
  units: UnitSystem,
): Filled => {
  let left = edits;
  const faults: Record<string, Record<string, string>> = {};
  const fault = (key: string, column: string, words: string) => {
    faults[key] = { ...faults[key], [column]: words };
  };
  for (let round = 0; round <= edits.length + 3 && left.length > 0; round++) {
    let placed: readonly Placed[] = [];
    const result = edit(label, (job) => {
      const all = placeRows(job, table, left, units, (key, words) => fault(key, wholeRow, words));
      placed = all.placed;
      return all.job;
    });
    if (result.ok) return { faults, done: placed.length > 0, label };
    const next = withoutFaulty(table, placed, result.errors, fault);
    if (next.length === left.length && next.every((each, i) => each === left[i])) {
      for (const { key } of left) fault(key, wholeRow, result.errors[0]?.message ?? 'This is not taken.');
      break;
    }
    left = next;
  }
  return { faults, done: false, label };
};

const placeRows = (
  job: Job,
  table: TableKind,
  edits: readonly RowEdit[],
  units: UnitSystem,
  refuse: (key: string, words: string) => void,
): { readonly job: Job; readonly placed: readonly Placed[] } => {
  let house = job;
  const placed: Placed[] = [];
  for (const each of edits) {
    const path = each.path ?? addRow(each);
    if (path === undefined) continue;
    placed.push({ edit: each, path });
    house = withEntries(
      house,
      table.columns
        .filter(({ key }) => key in each.cells)
        .map((column) => {
          const at = `${path}/${column.key}`;
          return { path: at, value: cellValue(house, at, column, each.cells[column.key]!, units) };
        }),
    );
  }
  return { job: house, placed };

  function addRow({ key, cells, owner }: RowEdit): string | undefined {
    const begun: Begun | undefined = table.begin?.(house, cells.name ?? cells.kind ?? '', owner);
    if (!begun) {
      refuse(key, owner ? `There is no “${owner}” to add it to.` : 'Say first what it belongs to.');
      return undefined;
    }
    const list = (valueAt(house, begun.list) ?? []) as readonly unknown[];
    const { id } = begun.record as { id?: string };
    const record = id === undefined ? begun.record : { ...begun.record, id: uniqueId(house, id) };
    house = setValue(house, begun.list, [...list, record]);
    return `${begun.list}/${'id' in record ? record.id : list.length}`;
  }
};

/** The edits without the cells at which the job found something wrong; a new row that is not whole is left out. */
const withoutFaulty = (
  table: TableKind,
  placed: readonly Placed[],
  errors: readonly JobError[],
  fault: (key: string, column: string, words: string) => void,
): readonly RowEdit[] =>
  placed.flatMap(({ edit: each, path }) => {
    const own = errors.filter((error) => error.path === path || error.path.startsWith(`${path}/`));
    if (own.length === 0) return [each];
    const bad = table.columns.filter(({ key }) => {
      const at = `${path}/${key}`;
      return own.some((error) => error.path === at || error.path.startsWith(`${at}/`));
    });
    for (const { key } of bad) fault(each.key, key, errorAt(own, `${path}/${key}`));
    if (bad.length === 0) fault(each.key, wholeRow, own[0]!.message);
    if (each.path === undefined || bad.length === 0) return [];
    const cells = Object.fromEntries(
      Object.entries(each.cells).filter(([key]) => !bad.some((column) => column.key === key)),
    );
    return Object.keys(cells).length === 0 ? [] : [{ ...each, cells }];
  });
