import type { Doubt } from '@airledger/engine/readings/doubt';
import { isByRise, type JobReading, type ReadingKind } from '@airledger/job';
import { useId, useState } from 'react';
import { DraftInput } from '../forms/draft-input.tsx';
import { useWorkbench } from '../state/store.ts';
import { typeReading } from './edit-readings.ts';
import { ReadingDetails } from './reading-details.tsx';
import { readingFields, type SheetRow, sheetUnit, typedReading } from './sheet-rows.ts';

/** One place of a sheet: its value as the instrument shows it, what is doubted about it, and the rest on demand. */
export const SheetLine = ({
  kind,
  row,
  doubts,
  note,
}: {
  kind: ReadingKind;
  row: SheetRow;
  doubts: readonly Doubt[];
  /** What else is to be said of its value. */
  note?: string | undefined;
}) => {
  const id = useId();
  const units = useWorkbench((state) => state.units);
  const [fault, setFault] = useState<string>();
  const [open, setOpen] = useState(false);
  const { reading } = row;
  const commit = (text: string): boolean => {
    if (text.trim() === '' && !reading) return true;
    const result = typeReading(kind, row, readingFields(kind, text, units));
    setFault(result.ok ? undefined : result.errors[0]?.message);
    return result.ok;
  };
  const unit = sheetUnit(kind, units);
  return (
    <li className={doubts.length > 0 ? 'sheet-line doubted' : 'sheet-line'}>
      <div className="sheet-line-row">
        <label htmlFor={id}>{row.label}</label>
        <DraftInput
          id={id}
          value={typedReading(kind, reading)}
          placeholder={placeholderOf(kind, reading, unit)}
          inputMode={kind === 'duct leakage' ? 'text' : 'decimal'}
          aria-invalid={fault !== undefined}
          aria-describedby={`${id}-doubts`}
          onDraft={() => setFault(undefined)}
          onCommit={commit}
        />
        {kind === 'fan flow' && !reading && (
          <button
            type="button"
            className="plain-button"
            onClick={() => {
              typeReading(kind, row, { instrument: 'temperature rise' });
              setOpen(true);
            }}
          >
            By temperature rise
          </button>
        )}
        <button
          type="button"
          className="plain-button"
          aria-expanded={open}
          aria-label={`More of ${row.label}`}
          disabled={!reading}
          onClick={() => setOpen(!open)}
        >
          {open ? 'Less' : 'More'}
        </button>
      </div>
      <div id={`${id}-doubts`}>
        {fault && (
          <p className="field-problem" role="alert">
            {fault} The last good value stands.
          </p>
        )}
        {doubts.map((doubt) => (
          <p key={doubt.message} className="doubt" role="status">
            <span className="doubt-kind">{doubt.kind}:</span> {doubt.value}; expected {doubt.expected}.{' '}
            {doubt.remedy}
          </p>
        ))}
      </div>
      {note && <p className="quiet">{note}.</p>}
      {open && reading && <ReadingDetails reading={reading} />}
    </li>
  );
};

const placeholderOf = (kind: ReadingKind, reading: JobReading | undefined, unit: string): string => {
  if (reading && isByRise(reading)) return 'worked out from the rise';
  return kind === 'duct leakage' ? `${unit}, or points: 100 ${unit} at 25 Pa; …` : unit;
};
