import type { Job } from '@airledger/job';
import { type ClipboardEvent, type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import { offered } from './cell-text.ts';
import type { TableKind } from './table-kinds.ts';
import { toTsv } from './tsv.ts';

type GridCell = { readonly text: string; readonly filledIn?: string; readonly fault?: string };

export type GridRow = {
  readonly key: string;
  readonly name: string;
  readonly owner?: string;
  readonly isNew: boolean;
  readonly fault?: string;
  readonly cells: readonly GridCell[];
};

type Place = { readonly row: number; readonly column: number };

type Props = {
  readonly job: Job;
  readonly table: TableKind;
  readonly rows: readonly GridRow[];
  readonly chosen: ReadonlySet<string>;
  readonly onChoose: (chosen: ReadonlySet<string>) => void;
  /** Column -1 is what the row belongs to. */
  readonly onCommit: (key: string, column: number, text: string) => void;
  readonly onPaste: (text: string, row: number, column: number) => void;
  readonly onOpen: (path: string) => void;
};

/** A grid of cells like a spreadsheet: arrows move, Enter or typing edits, Tab and Enter go on, Escape takes back. */
export const Grid = ({ job, table, rows, chosen, onChoose, onCommit, onPaste, onOpen }: Props) => {
  const box = useRef<HTMLTableElement>(null);
  const first = table.ownerLabel === undefined ? 0 : -1;
  const last = table.columns.length - 1;
  const [at, setAt] = useState<Place>({ row: 0, column: 0 });
  const [draft, setDraft] = useState<string>();
  const [moved, setMoved] = useState(0);
  const row = Math.min(at.row, Math.max(0, rows.length - 1));
  const active: Place = { row, column: Math.max(first, Math.min(at.column, last)) };
  const isFixed = (place: Place) => place.column < 0 && !rows[place.row]?.isNew;
  const note = useId();

  useEffect(() => {
    if (moved > 0) box.current?.querySelector<HTMLElement>('td[tabindex="0"]')?.focus();
  }, [moved]);

  const go = (to: Place) => {
    setDraft(undefined);
    setAt({
      row: Math.max(0, Math.min(to.row, rows.length - 1)),
      column: Math.max(first, Math.min(to.column, last)),
    });
    setMoved((count) => count + 1);
  };
  const textOf = ({ row: r, column }: Place) =>
    (column < 0 ? rows[r]?.owner : rows[r]?.cells[column]?.text) ?? '';
  const begin = (text = textOf(active)) => {
    if (!isFixed(active)) setDraft(text);
  };
  const commit = (next: Place) => {
    const key = rows[active.row]?.key;
    if (key !== undefined && draft !== undefined && draft !== textOf(active))
      onCommit(key, active.column, draft);
    go(next);
  };
  const toggle = (key: string, on = !chosen.has(key)) => {
    const next = new Set(chosen);
    if (on) next.add(key);
    else next.delete(key);
    onChoose(next);
  };

  const whileTyping = (event: KeyboardEvent): boolean => {
    const step = event.shiftKey ? -1 : 1;
    if (event.key === 'Enter') commit({ ...active, row: active.row + step });
    else if (event.key === 'Tab') commit({ ...active, column: active.column + step });
    else if (event.key === 'Escape') go(active);
    else return false;
    return true;
  };
  const whileMoving = (event: KeyboardEvent): boolean => {
    const { key, ctrlKey, metaKey, shiftKey } = event;
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowDown: [1, 0],
      ArrowUp: [-1, 0],
      ArrowRight: [0, 1],
      ArrowLeft: [0, -1],
      PageDown: [10, 0],
      PageUp: [-10, 0],
    };
    const step = steps[key];
    const control = ctrlKey || metaKey;
    if (step) {
      const here = rows[active.row];
      if (shiftKey && step[0] !== 0 && here && !here.isNew) chooseTo(active.row, active.row + step[0]);
      go({ row: active.row + step[0], column: active.column + step[1] });
    } else if (key === 'Home') go({ row: control ? 0 : active.row, column: first });
    else if (key === 'End') go({ row: control ? rows.length - 1 : active.row, column: last });
    else if (key === 'Enter' || key === 'F2') begin();
    else if (key === ' ' && rows[active.row] && !rows[active.row]!.isNew) toggle(rows[active.row]!.key);
    else if (key === 'Delete' && !isFixed(active) && rows[active.row])
      onCommit(rows[active.row]!.key, active.column, '');
    else if (key === 'a' && control)
      onChoose(new Set(rows.filter(({ isNew }) => !isNew).map((each) => each.key)));
    else if (key.length === 1 && !control && key !== ' ') begin(key);
    else return false;
    return true;
  };
  const chooseTo = (from: number, to: number) => {
    const next = new Set(chosen);
    for (let i = Math.min(from, to); i <= Math.max(from, to); i++) {
      const each = rows[i];
      if (each && !each.isNew) next.add(each.key);
    }
    onChoose(next);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if ((event.target as HTMLElement).closest('input[type="checkbox"], button')) return;
    if (!(draft === undefined ? whileMoving(event) : whileTyping(event))) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const paste = (event: ClipboardEvent) => {
    const text = event.clipboardData.getData('text/plain');
    if (draft !== undefined && !/[\t\n]/.test(text)) return;
    event.preventDefault();
    setDraft(undefined);
    onPaste(text, active.row, Math.max(0, active.column));
  };
  const copy = (event: ClipboardEvent) => {
    if (draft !== undefined) return;
    const picked = rows.filter(({ key }) => chosen.has(key));
    const heads = table.columns.map(({ label }) => label);
    const text =
      picked.length > 0
        ? toTsv([heads, ...picked.map(({ cells }) => cells.map((cell) => cell.text))])
        : textOf(active);
    event.clipboardData.setData('text/plain', text);
    event.preventDefault();
  };
  const here = rows[active.row];
  const told = here && (here.cells[active.column]?.fault ?? here.fault);

  return (
    <>
      <p id={note} className={told ? 'grid-note field-problem' : 'grid-note quiet'} role="status">
        {told ?? 'Arrows move, Enter edits, Space chooses a row, Ctrl+V pastes rows from a spreadsheet.'}
      </p>
      <div className="grid-box">
        <table
          ref={box}
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a grid is a table that is typed into
          role="grid"
          className="grid"
          aria-label={table.title}
          aria-describedby={note}
          aria-multiselectable="true"
          onKeyDown={onKeyDown}
          onPaste={paste}
          onCopy={copy}
        >
          <thead>
            <tr>
              <th scope="col">
                <input
                  type="checkbox"
                  aria-label="Choose all rows"
                  checked={
                    rows.some(({ isNew }) => !isNew) &&
                    rows.every(({ key, isNew }) => isNew || chosen.has(key))
                  }
                  onChange={({ target }) =>
                    onChoose(
                      new Set(target.checked ? rows.filter(({ isNew }) => !isNew).map(({ key }) => key) : []),
                    )
                  }
                />
              </th>
              {table.ownerLabel !== undefined && <th scope="col">{table.ownerLabel}</th>}
              {table.columns.map(({ key, label, kind }) => (
                <th key={key} scope="col" title={kind.description}>
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((each, r) => (
              <tr
                key={each.key}
                aria-selected={chosen.has(each.key)}
                className={each.isNew ? 'new-row' : undefined}
              >
                <th scope="row">
                  {each.isNew ? (
                    <span aria-hidden="true">+</span>
                  ) : (
                    <span className="row-head">
                      <input
                        type="checkbox"
                        aria-label={`Choose ${each.owner ? `${each.owner}, ` : ''}${each.name}`}
                        checked={chosen.has(each.key)}
                        onChange={({ target }) => toggle(each.key, target.checked)}
                      />
                      <button
                        type="button"
                        className="link-button"
                        aria-label={`Details of ${each.owner ? `${each.owner}, ` : ''}${each.name}`}
                        title="Details"
                        onClick={() => onOpen(each.key)}
                      >
                        …
                      </button>
                    </span>
                  )}
                  {each.isNew && <span className="unseen">new row</span>}
                </th>
                {Array.from({ length: last - first + 1 }, (_, i) => i + first).map((column) => {
                  const isActive = active.row === r && active.column === column;
                  const cell: GridCell = column < 0 ? { text: each.owner ?? '' } : each.cells[column]!;
                  const isTyping = isActive && draft !== undefined;
                  return (
                    // biome-ignore lint/a11y/useKeyWithClickEvents: the grid takes the keys of all its cells
                    <td
                      key={column}
                      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a cell of a grid
                      role="gridcell"
                      tabIndex={isActive && !isTyping ? 0 : -1}
                      className={cell.text === '' && cell.filledIn ? 'filled-in' : undefined}
                      aria-invalid={cell.fault !== undefined || undefined}
                      title={cell.fault}
                      onClick={() => !isTyping && go({ row: r, column })}
                      onDoubleClick={() => isActive && begin()}
                    >
                      {isTyping ? (
                        <CellInput
                          label={`${column < 0 ? table.ownerLabel : table.columns[column]!.label} of ${each.name}`}
                          words={
                            column < 0
                              ? [
                                  ...new Set(
                                    rows.flatMap(({ owner, isNew }) => (owner && !isNew ? [owner] : [])),
                                  ),
                                ]
                              : offered(
                                  job,
                                  `${each.key}/${table.columns[column]!.key}`,
                                  table.columns[column]!,
                                )
                          }
                          value={draft}
                          onChange={setDraft}
                          onLeave={() => commit(active)}
                        />
                      ) : (
                        cell.text || cell.filledIn || ''
                      )}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
};

const CellInput = ({
  label,
  words,
  value,
  onChange,
  onLeave,
}: {
  label: string;
  words: readonly string[];
  value: string;
  onChange: (text: string) => void;
  onLeave: () => void;
}) => {
  const list = useId();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => input.current?.focus(), []);
  return (
    <>
      <input
        ref={input}
        type="text"
        aria-label={label}
        list={words.length > 0 ? list : undefined}
        autoComplete="off"
        value={value}
        onChange={(event) => onChange(event.target.value)}
        onBlur={(event) => {
          // A click on another cell goes there itself.
          if (event.relatedTarget && !event.currentTarget.closest('table')?.contains(event.relatedTarget))
            onLeave();
        }}
      />
      {words.length > 0 && (
        <datalist id={list}>
          {words.map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      )}
    </>
  );
};
