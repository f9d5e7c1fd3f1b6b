import type { Job } from '@airledger/job';
import { useState } from 'react';
import type { Selected, SelectedKind } from '../draw/selection.ts';
import { useWorkbench } from '../state/store.ts';
import { BulkEdit } from '../tables/bulk-edit.tsx';
import { fillCells } from '../tables/fill-cells.ts';
import { type TableKind, type TableName, tableKinds } from '../tables/table-kinds.ts';
import { editValues } from './edit-values.ts';
import { pathOfSelected } from './open-record.ts';
import '../tables/tables.css';

const tableOf: Partial<Record<SelectedKind, TableName>> = {
  room: 'rooms',
  zone: 'zones',
  part: 'ducts',
  register: 'registers',
  door: 'doors',
  window: 'surfaces',
  surface: 'surfaces',
};

/** One property for all records of a kind that are selected on the drawing. */
export const ManySelected = ({ job, selection }: { job: Job; selection: readonly Selected[] }) => {
  const units = useWorkbench((state) => state.units);
  const [wanted, setWanted] = useState<TableName>('ducts');
  const [problem, setProblem] = useState<string>();
  const groups = groupsOf(job, selection);
  const name = groups.has(wanted) ? wanted : [...groups.keys()][0];
  if (name === undefined) return null;
  const paths = groups.get(name)!;
  const table: TableKind = tableKinds[name];
  return (
    <fieldset className="field-group">
      <legend>
        {paths.length} {table.title.toLowerCase()} selected
      </legend>
      {groups.size > 1 && (
        <select
          aria-label="Which of what is selected"
          value={name}
          onChange={(event) => setWanted(event.target.value as TableName)}
        >
          {[...groups].map(([key, each]) => (
            <option key={key} value={key}>
              {each.length} {tableKinds[key].title.toLowerCase()}
            </option>
          ))}
        </select>
      )}
      <BulkEdit
        job={job}
        columns={table.columns}
        paths={paths}
        onSet={(column, text) => {
          const edits = paths.map((path) => ({ key: path, path, cells: { [column.key]: text } }));
          const { faults } = fillCells(`${column.label} of ${paths.length}`, table, edits, units);
          setProblem(Object.values(faults).flatMap((fault) => Object.values(fault))[0]);
        }}
        onRemove={() => {
          const gone = paths.toReversed().map((path) => ({ path, value: undefined }));
          const result = editValues(`${paths.length} removed`, gone);
          setProblem(result.ok ? undefined : result.errors[0]?.message);
        }}
      />
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </fieldset>
  );
};

/** Paths of what is selected by the table it belongs to, where there are several of it. */
const groupsOf = (job: Job, selection: readonly Selected[]): ReadonlyMap<TableName, readonly string[]> => {
  const groups = new Map<TableName, string[]>();
  for (const each of selection) {
    const name = tableOf[each.kind];
    const path = pathOfSelected(job, each);
    if (name && path !== undefined) groups.set(name, [...(groups.get(name) ?? []), path]);
  }
  return new Map([...groups].filter(([, paths]) => paths.length > 1));
};
