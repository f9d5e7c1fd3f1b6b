import { useEffect, useRef } from 'react';
import { useResolvedJob } from '../document/document.ts';
import { useSelection } from '../draw/selection.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { useWorkbench } from '../state/store.ts';
import { AsFound } from './as-found.tsx';
import { IdField } from './id-field.tsx';
import { ManySelected } from './many-selected.tsx';
import { arrived, openRecord, pathOfSelected, useSide } from './open-record.ts';
import { Photos } from './photos.tsx';
import { RecordForm } from './record-form.tsx';
import { formOf, type JobRecord, recordsOf } from './record-list.ts';

/** The form of what is selected on the drawing, or of any other record of the job. */
export const Details = () => {
  const job = useResolvedJob();
  const record = useRecordInHand();
  const selection = useSelection();
  const box = useRef<HTMLDivElement>(null);
  const field = useSide((state) => state.field);
  useEffect(() => {
    if (field === undefined || !box.current) return;
    const fields = [...box.current.querySelectorAll<HTMLElement>('[data-field]')];
    const at = fields.find(({ dataset }) => dataset.field === field) ?? fields[0];
    at?.querySelector<HTMLElement>('input, select, textarea')?.focus();
    at?.scrollIntoView({ block: 'center' });
    arrived();
  }, [field]);
  if (!job || !record) return null;
  const form = formOf(record);
  return (
    <Scrolls key={record.path} className="sheet details" label={`Details: ${record.name}`}>
      <div ref={box}>
        <RecordPicker records={recordsOf(job)} now={record.path} />
        <ManySelected job={job} selection={selection} />
        <h2>{record.name}</h2>
        <p className="quiet details-kind">{form.title}</p>
        {/* What is seen of a register is said of the duct that ends in it. */}
        <AsFound path={record.path.replace(/\/terminal$/, '')} />
        <RecordForm form={form} path={record.path} />
        <Photos of={record.path} />
        <IdField key={record.path} path={record.path} />
      </div>
    </Scrolls>
  );
};

/** The record that was opened by name, else what is selected, else the duct or room in hand. */
const useRecordInHand = (): JobRecord | undefined => {
  const job = useResolvedJob();
  const opened = useSide((state) => state.record);
  const selected = useSelection().at(-1);
  const part = useWorkbench((state) => state.part);
  const room = useWorkbench((state) => state.room);
  if (!job) return undefined;
  const records = recordsOf(job);
  const at = (path: string | undefined) =>
    path === undefined ? undefined : records.find((each) => each.path === path);
  return (
    at(opened) ??
    (selected && at(pathOfSelected(job, selected))) ??
    (part ? at(pathOfSelected(job, { kind: 'part', id: part })) : undefined) ??
    (room ? at(`rooms/${room}`) : undefined) ??
    records[0]
  );
};

const RecordPicker = ({ records, now }: { records: readonly JobRecord[]; now: string }) => {
  const groups = [...new Set(records.map(({ group }) => group))];
  return (
    <label className="record-picker">
      <span className="unseen">Show the details of</span>
      <select value={now} onChange={(event) => openRecord(event.target.value)}>
        {groups.map((group) => (
          <optgroup key={group} label={group}>
            {records
              .filter((record) => record.group === group)
              .map((record) => (
                <option key={record.path} value={record.path}>
                  {record.name}
                </option>
              ))}
          </optgroup>
        ))}
      </select>
    </label>
  );
};
