import { useId } from 'react';
import { HelpButton } from '../help/help-button.tsx';
import type { FieldKind } from './field-kind.ts';
import { limitsWords } from './limits-words.ts';
import { LinesInput } from './lines-input.tsx';
import { QuantityInput } from './quantity-input.tsx';
import { optionsOf } from './references.ts';
import { useEditedField, useFact, useSmallFormat } from './use-edited-field.ts';
import { CountInput, FlagInput, NamedInput, PickInput, TextInput, WordsInput } from './word-inputs.tsx';
import './forms.css';

export type FieldProps = {
  readonly path: string;
  /** The same place in the schema. */
  readonly pattern: string;
  readonly label: string;
  readonly kind: FieldKind;
};

/** What every kind of input gets. */
export type InputProps = FieldProps & {
  readonly id: string;
  readonly value: unknown;
  readonly describedBy: string;
  readonly invalid: boolean;
  readonly commit: (value: unknown) => boolean;
  readonly clear: () => void;
};

/** One surveyed property: its name, its value as typed, what stands in for it and from where, what is wrong with it. */
export const Field = (props: FieldProps) => {
  const { path, pattern, label, kind } = props;
  const id = useId();
  const { job, value, problem, commit, clear } = useEditedField(path, label);
  const fact = useFact(path);
  const format = useSmallFormat();
  if (!job) return null;
  const input: InputProps = {
    ...props,
    id,
    value,
    commit,
    clear,
    invalid: problem !== undefined,
    describedBy: `${problem ? `${id}-problem` : `${id}-about`} ${id}-limits`,
  };
  const options = optionsOf(job, path, pattern);
  const limits = limitsWords(kind, format);
  const grouped = kind.kind === 'words';
  const isShort = kind.kind !== 'quantity' && kind.kind !== 'lines' && !grouped;
  return (
    <div className={isShort ? 'field short' : `field ${kind.kind}`} data-field={path}>
      <div className="field-name">
        {grouped ? <span id={`${id}-name`}>{label}</span> : <label htmlFor={id}>{label}</label>}
        <HelpButton label={label} path={path} pattern={pattern} kind={kind} />
      </div>
      {options ? <PickInput {...input} options={options} /> : <InputOf {...input} />}
      {problem && (
        <p id={`${id}-problem`} className="field-problem" role="alert">
          {problem} The last good value stands.
        </p>
      )}
      <p id={`${id}-about`} className="field-about">
        {fact && kind.kind !== 'quantity' && value === undefined && `filled in: ${fact.typed}`}
        {fact?.source && value === undefined && kind.kind !== 'quantity' && ` · ${fact.source}`}
      </p>
      {limits !== '' && (
        <p id={`${id}-limits`} className="field-about">
          may be {limits}
        </p>
      )}
    </div>
  );
};

const InputOf = (props: InputProps) => {
  const { kind } = props;
  switch (kind.kind) {
    case 'quantity':
      return <QuantityInput {...props} dimension={kind.dimension} />;
    case 'word':
      return <PickInput {...props} options={kind.words.map((word) => ({ value: word, words: word }))} />;
    case 'words':
      return <WordsInput {...props} words={kind.words} />;
    case 'named':
      return <NamedInput {...props} names={kind.names} />;
    case 'count':
      return <CountInput {...props} />;
    case 'flag':
      return <FlagInput {...props} />;
    case 'lines':
      return <LinesInput {...props} />;
    case 'text':
      return <TextInput {...props} />;
  }
};
