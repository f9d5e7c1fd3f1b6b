import type { Job } from '@airledger/job';
import { useId, useState } from 'react';
import { offered } from './cell-text.ts';
import type { Column } from './table-kinds.ts';

/** One property for all rows that are chosen. */
export const BulkEdit = ({
  job,
  columns,
  paths,
  onSet,
  onRemove,
}: {
  job: Job;
  columns: readonly Column[];
  paths: readonly string[];
  onSet: (column: Column, text: string) => void;
  onRemove: () => void;
}) => {
  const [key, setKey] = useState('');
  const [text, setText] = useState('');
  const list = useId();
  const column = columns.find((each) => each.key === key);
  return (
    <form
      className="bulk"
      onSubmit={(event) => {
        event.preventDefault();
        if (column) onSet(column, text);
      }}
    >
      <select aria-label="Property to set" value={key} onChange={(event) => setKey(event.target.value)}>
        <option value="">Property to set …</option>
        {columns.map((each) => (
          <option key={each.key} value={each.key}>
            {each.label}
          </option>
        ))}
      </select>
      <input
        type="text"
        aria-label={`${column?.label ?? 'Value'} of the chosen rows`}
        disabled={!column}
        placeholder={column?.kind.examples[0] ? `as ${column.kind.examples[0]}` : ''}
        list={list}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <datalist id={list}>
        {column &&
          offered(job, `${paths[0]}/${column.key}`, column).map((word) => <option key={word} value={word} />)}
      </datalist>
      <button type="submit" className="plain-button" disabled={!column}>
        Set for {paths.length}
      </button>
      <button type="button" className="plain-button" onClick={onRemove}>
        Remove {paths.length}
      </button>
    </form>
  );
};
