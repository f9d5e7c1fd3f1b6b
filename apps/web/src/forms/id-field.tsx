import { renameRecord } from '@airledger/job';
import { useId, useState } from 'react';
import { editTyped, useResolvedJob } from '../document/document.ts';
import { select } from '../draw/selection.ts';
import { DraftInput } from './draft-input.tsx';
import { openRecord } from './open-record.ts';
import { idOf } from './record-list.ts';

/** The id of a record, by which the job file and others name it; all of them follow another one. */
export const IdField = ({ path }: { path: string }) => {
  const job = useResolvedJob();
  const field = useId();
  const [problem, setProblem] = useState<string>();
  const id = job && idOf(job, path);
  if (id === undefined) return null;
  const rename = (text: string): boolean => {
    let now = path;
    const result = editTyped(`${id} renamed to ${text.trim()}`, (typed) => {
      const renamed = renameRecord(typed, path, id, text.trim());
      now = renamed.path;
      return renamed.job;
    });
    setProblem(result.ok ? undefined : result.errors[0]?.message);
    if (!result.ok) return false;
    // What is selected was selected by the old id.
    select([]);
    openRecord(now);
    return true;
  };
  return (
    <fieldset className="field-group">
      <legend>In the job file</legend>
      <div className="field short">
        <label htmlFor={field}>Id</label>
        <DraftInput
          id={field}
          value={id}
          aria-invalid={problem !== undefined}
          aria-describedby={`${field}-about`}
          onDraft={() => setProblem(undefined)}
          onCommit={rename}
        />
        {problem && (
          <p className="field-problem" role="alert">
            {problem} The last good id stands.
          </p>
        )}
        <p id={`${field}-about`} className="field-about">
          small letters, digits and hyphens; what refers to it follows, in all states
        </p>
      </div>
    </fieldset>
  );
};
