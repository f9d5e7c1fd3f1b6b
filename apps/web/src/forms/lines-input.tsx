import { useState } from 'react';
import type { InputProps } from './field.tsx';

/** A list, one item on each line: corners, bends, lines of a blower table; pasted from anywhere. */
export const LinesInput = ({ id, kind, value, invalid, describedBy, commit, clear }: InputProps) => {
  const text = ((value ?? []) as readonly string[]).join('\n');
  const [draft, setDraft] = useState<string>();
  const take = () => {
    if (draft === undefined || draft === text) return setDraft(undefined);
    const lines = draft
      .split('\n')
      .map((line) => line.trim())
      .filter(Boolean);
    if (commit(lines.length === 0 ? undefined : lines)) setDraft(undefined);
  };
  const rows = Math.min(8, Math.max(2, (draft ?? text).split('\n').length));
  return (
    <textarea
      id={id}
      rows={rows}
      value={draft ?? text}
      placeholder={`one on each line, as\n${kind.examples[0] ?? ''}`}
      aria-invalid={invalid}
      aria-describedby={describedBy}
      onChange={(event) => {
        setDraft(event.target.value);
        clear();
      }}
      onBlur={() => !invalid && take()}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) take();
        if (event.key !== 'Escape' || draft === undefined) return;
        event.stopPropagation();
        setDraft(undefined);
        clear();
      }}
    />
  );
};
