import type { Doubt } from '@airledger/engine/readings/doubt';
import {
  type Job,
  type JobReading,
  kindRow,
  type ReadingKind,
  readingKindRows,
  saysPressure,
  stateOfReading,
} from '@airledger/job';
import { fanFlowWords } from '@airledger/report/fan-flow-words';
import { useState } from 'react';
import { useTypedJob } from '../document/document.ts';
import { useWorkbench } from '../state/store.ts';
import { ImportLog } from './import-log.tsx';
import { Procedure } from './procedure.tsx';
import { SheetLine } from './sheet-line.tsx';
import { sheetRows, typedReading } from './sheet-rows.ts';
import { useReadings } from './use-readings.ts';

const title = (kind: ReadingKind): string => kind.charAt(0).toUpperCase() + kind.slice(1);

/** Reading sheets, one for each kind of reading: every place with its value, the procedure above them. */
export const Sheets = () => {
  const job = useTypedJob();
  const state = useWorkbench(({ viewed }) => viewed);
  const read = useReadings();
  const units = useWorkbench((one) => one.units);
  const [kind, setKind] = useState<ReadingKind>('duct leakage');
  const [importing, setImporting] = useState(false);
  if (!job || !read) return null;
  const rows = sheetRows(job, state, kind);
  const noteOf = (typed: JobReading | undefined): string | undefined => {
    const reading = read.readings.find(({ id }) => id === typed?.id);
    if (!typed || !reading) return undefined;
    const usualPressure = kindRow(kind).usual.ductPressure;
    return kind === 'duct leakage' && !saysPressure(typed)
      ? `It counts as held at ${usualPressure}; checks go by it only when that is said, as “${typedReading(kind, typed)} at ${usualPressure}”`
      : fanFlowWords(reading, units);
  };
  return (
    <div className="sheets">
      <nav className="sheet-kinds" aria-label="Reading sheets">
        {readingKindRows.map((row) => (
          <KindButton
            key={row.kind}
            job={job}
            state={state}
            kind={row.kind}
            doubts={read.doubts}
            current={row.kind === kind && !importing}
            choose={() => {
              setKind(row.kind);
              setImporting(false);
            }}
          />
        ))}
        <button
          type="button"
          aria-current={importing ? 'page' : undefined}
          onClick={() => setImporting(true)}
        >
          <strong>Take in a log</strong>
          <span>CSV of a gauge</span>
        </button>
      </nav>
      {importing ? (
        <ImportLog />
      ) : (
        <section aria-label={title(kind)}>
          <h3>{title(kind)}</h3>
          <Procedure kind={kind} />
          <p className="quiet">
            Type what the instrument shows, in either unit; it is kept as typed. “± 3 %” behind it says how
            sure it is.
          </p>
          <ul className="sheet-lines">
            {rows.map((row) => (
              <SheetLine
                key={`${state} ${kind} ${row.key}`}
                kind={kind}
                row={row}
                doubts={read.doubts.filter(
                  ({ readings }) => row.reading !== undefined && readings[0] === row.reading.id,
                )}
                note={noteOf(row.reading)}
              />
            ))}
          </ul>
        </section>
      )}
    </div>
  );
};

const KindButton = ({
  job,
  state,
  kind,
  doubts,
  current,
  choose,
}: {
  job: Job;
  state: string;
  kind: ReadingKind;
  doubts: readonly Doubt[];
  current: boolean;
  choose: () => void;
}) => {
  const own = (job.readings ?? []).filter(
    (reading) => reading.kind === kind && stateOfReading(job, reading) === state,
  );
  const ids = new Set(own.map(({ id }) => id));
  const doubted = doubts.filter(({ readings: [id] }) => ids.has(id!)).length;
  return (
    <button type="button" aria-current={current ? 'page' : undefined} onClick={choose}>
      <strong>{title(kind)}</strong>
      <span>
        {own.length === 0 ? 'none yet' : `${own.length} read`}
        {doubted > 0 && `, ${doubted} to look at`}
      </span>
    </button>
  );
};
