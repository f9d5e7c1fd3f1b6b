import {
  guessMapping,
  type ImportFault,
  type ImportField,
  type ImportMapping,
  importFields,
  importReadings,
  parseCsv,
  type ReadingKind,
  readingKindRows,
} from '@airledger/job';
import { useId, useMemo, useState } from 'react';
import { editTyped } from '../document/document.ts';
import { useWorkbench } from '../state/store.ts';

const fieldWords = (field: ImportField): string =>
  ({ of: 'place', at: 'probe at', to: 'against' })[field as string] ??
  field
    .split('/')
    .at(-1)!
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** Takes the rows of a gauge's log in as readings of the state in view, once its columns are told. */
export const ImportLog = () => {
  const id = useId();
  const [text, setText] = useState('');
  const rows = useMemo(() => parseCsv(text), [text]);
  return (
    <section aria-label="Take in a log">
      <h3>Take in a log</h3>
      <p className="quiet">
        A CSV file of a gauge, or its cells pasted: one reading a row. A row that does not read is told and
        left out.
      </p>
      <p>
        <label htmlFor={`${id}-file`}>File </label>
        <input
          id={`${id}-file`}
          type="file"
          accept=".csv,.txt,.tsv,text/csv"
          onChange={async (event) => setText((await event.target.files?.[0]?.text()) ?? '')}
        />
      </p>
      <label htmlFor={`${id}-text`}>Rows</label>
      <textarea
        id={`${id}-text`}
        className="log-text"
        rows={6}
        value={text}
        placeholder={'register,flow (cfm)\nKitchen,146'}
        onChange={(event) => setText(event.target.value)}
      />
      {rows.length > 0 && <Columns key={rows[0]!.join('|')} rows={rows} />}
    </section>
  );
};

const Columns = ({ rows }: { rows: readonly (readonly string[])[] }) => {
  const state = useWorkbench(({ viewed }) => viewed);
  const [mapping, setMapping] = useState<ImportMapping>(() => guessMapping(rows[0]!));
  const [kind, setKind] = useState<ReadingKind>('register flow');
  const [done, setDone] = useState<{ readonly added: number; readonly faults: readonly ImportFault[] }>();
  const named = mapping.columns.includes('kind');
  const wide = Math.max(...rows.map((row) => row.length));
  const take = () => {
    let outcome = { added: 0, faults: [] as readonly ImportFault[] };
    const result = editTyped('Log of a gauge taken in', (job) => {
      const { job: next, ...rest } = importReadings(job, state, rows, {
        ...mapping,
        everyRow: named ? {} : { kind },
      });
      outcome = rest;
      return next;
    });
    setDone(
      result.ok ? outcome : { added: 0, faults: result.errors.map(({ message }) => ({ row: 0, message })) },
    );
  };
  const setColumn = (column: number, field: string) =>
    setMapping((before) => ({
      ...before,
      columns: Array.from({ length: wide }, (_, i) =>
        i === column ? ((field || undefined) as ImportField | undefined) : before.columns[i],
      ),
    }));
  return (
    <>
      {!named && (
        <p>
          <label>
            Every row is a reading of{' '}
            <select
              className="tests-select"
              value={kind}
              onChange={(event) => setKind(event.target.value as ReadingKind)}
            >
              {readingKindRows.map((row) => (
                <option key={row.kind}>{row.kind}</option>
              ))}
            </select>
          </label>
        </p>
      )}
      <table>
        <caption className="unseen">Columns of the log</caption>
        <thead>
          <tr>
            {Array.from({ length: wide }, (_, column) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place
              <th key={column} scope="col">
                <select
                  className="tests-select"
                  aria-label={`Column ${column + 1} is`}
                  value={mapping.columns[column] ?? ''}
                  onChange={(event) => setColumn(column, event.target.value)}
                >
                  <option value="">left out</option>
                  {importFields.map((field) => (
                    <option key={field} value={field}>
                      {fieldWords(field)}
                    </option>
                  ))}
                </select>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, 4).map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a text have no identity but their place
            <tr key={i}>
              {Array.from({ length: wide }, (_, column) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place
                <td key={column}>{row[column] ?? ''}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        <label>
          <input
            type="checkbox"
            checked={mapping.hasHead}
            onChange={(event) => setMapping((before) => ({ ...before, hasHead: event.target.checked }))}
          />{' '}
          The first row is a head
        </label>
      </p>
      <button type="button" className="plain-button" onClick={take}>
        Take in {rows.length - (mapping.hasHead ? 1 : 0)} rows
      </button>
      {done && (
        <div role="status">
          <p>
            {done.added} readings taken in{done.faults.length > 0 && `, ${done.faults.length} faults`}.
          </p>
          <ul>
            {done.faults.map(({ row, message }) => (
              <li key={`${row} ${message}`} className="field-problem">
                {row > 0 && `Row ${row}: `}
                {message}
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
};
