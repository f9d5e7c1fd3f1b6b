import { useId } from 'react';
import { countOf } from './count-of.ts';
import { DraftInput } from './draft-input.tsx';
import type { InputProps } from './field.tsx';
import type { Option } from './references.ts';

/** One of a few words, or a record that is there; a required field has no way to be nothing. */
export const PickInput = ({
  id,
  kind,
  value,
  invalid,
  describedBy,
  commit,
  options,
}: InputProps & { options: readonly Option[] }) => {
  const now = value === undefined ? '' : String(value);
  const isThere = now === '' || options.some((option) => option.value === now);
  return (
    <select
      id={id}
      value={now}
      aria-invalid={invalid}
      aria-describedby={describedBy}
      onChange={(event) => commit(event.target.value === '' ? undefined : event.target.value)}
    >
      {(!kind.required || now === '') && <option value="">not stated</option>}
      {!isThere && <option value={now}>{now}</option>}
      {options.map((option) => (
        <option key={option.value} value={option.value}>
          {option.words}
        </option>
      ))}
    </select>
  );
};

export const FlagInput = ({ id, value, invalid, describedBy, commit }: InputProps) => (
  <select
    id={id}
    value={value === undefined ? '' : String(value)}
    aria-invalid={invalid}
    aria-describedby={describedBy}
    onChange={(event) => commit(event.target.value === '' ? undefined : event.target.value === 'true')}
  >
    <option value="">not stated</option>
    <option value="true">yes</option>
    <option value="false">no</option>
  </select>
);

export const TextInput = ({ id, kind, value, invalid, describedBy, commit, clear }: InputProps) => (
  <DraftInput
    id={id}
    value={value === undefined ? '' : String(value)}
    placeholder={kind.examples[0] ? `as ${kind.examples[0]}` : undefined}
    aria-invalid={invalid}
    aria-describedby={describedBy}
    onDraft={clear}
    onCommit={(text) => commit(text.trim() || undefined)}
  />
);

/** A name of a table, offered while typing. */
export const NamedInput = ({
  id,
  value,
  invalid,
  describedBy,
  commit,
  clear,
  names,
}: InputProps & { names: readonly string[] }) => {
  const list = useId();
  return (
    <>
      <DraftInput
        id={id}
        list={list}
        value={value === undefined ? '' : String(value)}
        placeholder="pick from the list"
        aria-invalid={invalid}
        aria-describedby={describedBy}
        onDraft={clear}
        onCommit={(text) => commit(text.trim() || undefined)}
      />
      <datalist id={list}>
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </>
  );
};

export const CountInput = ({ id, value, invalid, describedBy, commit, clear }: InputProps) => (
  <DraftInput
    id={id}
    inputMode="numeric"
    value={value === undefined ? '' : String(value)}
    aria-invalid={invalid}
    aria-describedby={describedBy}
    onDraft={clear}
    onCommit={(text) => commit(countOf(text))}
  />
);

export const WordsInput = ({ id, value, commit, words }: InputProps & { words: readonly string[] }) => {
  const chosen = (value ?? []) as readonly string[];
  return (
    <fieldset className="field-words" aria-labelledby={`${id}-name`}>
      {words.map((word) => (
        <label key={word}>
          <input
            type="checkbox"
            checked={chosen.includes(word)}
            onChange={({ target }) => {
              const next = words.filter((each) => (each === word ? target.checked : chosen.includes(each)));
              commit(next.length === 0 ? undefined : next);
            }}
          />
          {word}
        </label>
      ))}
    </fieldset>
  );
};
