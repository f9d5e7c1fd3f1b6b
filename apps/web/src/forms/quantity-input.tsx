import { type Dimension, displayUnit, type HowKnown } from '@airledger/engine';
import { useState } from 'react';
import { useWorkbench } from '../state/store.ts';
import { DraftInput } from './draft-input.tsx';
import type { InputProps } from './field.tsx';
import { asValue, knownBy, retyped, typedQuantity, withUnit } from './typed-quantity.ts';
import { useFact, useSmallFormat } from './use-edited-field.ts';

const marks: readonly HowKnown[] = ['measured', 'read off', 'estimated', 'assumed'];

/** A quantity as typed, how it is known, and a note; its default, its range and where they come from below it. */
export const QuantityInput = ({
  id,
  path,
  label,
  kind,
  value,
  invalid,
  describedBy,
  commit,
  clear,
  dimension,
}: InputProps & { dimension: Dimension }) => {
  const units = useWorkbench((state) => state.units);
  const fact = useFact(path);
  const format = useSmallFormat();
  const typed = typedQuantity(value);
  const [noted, setNoted] = useState(false);
  const isTyped = typed.text !== '';
  const usual = fact?.value === undefined ? undefined : format(fact.value, dimension);
  const unit = displayUnit(dimension, units);
  return (
    <>
      <div className="field-row">
        <DraftInput
          id={id}
          value={typed.text}
          placeholder={usual ?? `as ${kind.examples[units === 'ip' ? 0 : kind.examples.length - 1] ?? ''}`}
          aria-invalid={invalid}
          aria-describedby={`${describedBy} ${id}-stands`}
          onDraft={clear}
          onCommit={(text) => commit(retyped(typed, withUnit(text, dimension, units)))}
        />
        <span className="field-unit" aria-hidden="true">
          {unit}
        </span>
        <select
          aria-label={`How ${label} is known`}
          className="field-known"
          value={typed.known ?? ''}
          disabled={!isTyped}
          onChange={(event) =>
            commit(knownBy(typed, (event.target.value || undefined) as HowKnown | undefined))
          }
        >
          <option value="">{isTyped ? (fact?.howKnown ?? 'as usual') : 'filled in'}</option>
          {marks.map((mark) => (
            <option key={mark} value={mark}>
              {mark}
            </option>
          ))}
        </select>
        {isTyped && !noted && !typed.note && (
          <button
            type="button"
            className="field-note-button"
            aria-label={`Note on ${label}`}
            title="Note"
            onClick={() => setNoted(true)}
          >
            ✎
          </button>
        )}
      </div>
      {(noted || typed.note) && isTyped && (
        <DraftInput
          className="field-note"
          aria-label={`Note on ${label}`}
          placeholder="Note"
          value={typed.note ?? ''}
          onCommit={(note) => commit(asValue({ ...typed, note: note.trim() || undefined }))}
        />
      )}
      <p id={`${id}-stands`} className="field-about field-source" title={fact?.source}>
        {standsWords(isTyped, usual, fact?.source, typed.text, unit)}
        {fact?.low !== undefined &&
          fact.high !== undefined &&
          `${format(fact.low, dimension)} to ${format(fact.high, dimension)}`}
      </p>
    </>
  );
};

/** "filled in: 8.0 ft · ceiling height of the house"; of a typed value, what it is in the units of the page. */
const standsWords = (
  isTyped: boolean,
  usual: string | undefined,
  source: string | undefined,
  text: string,
  unit: string,
): string => {
  if (usual === undefined) return '';
  if (!isTyped) return `filled in: ${usual}${source ? ` · ${source}` : ''}`;
  return unit === '' || text.includes(unit) ? '' : `is ${usual}. `;
};
