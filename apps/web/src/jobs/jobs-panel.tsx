import { type ReactNode, useCallback, useEffect, useRef, useState } from 'react';
import { archiveJob, duplicateJob, exportJob, type ListedJob, listJobs, openKept } from '../keeping/jobs.ts';
import { Panel } from '../shell/panel.tsx';
import { closePanel, showPanel } from '../shell/panel-store.ts';
import { openFile } from '../state/actions.ts';
import { useWorkbench } from '../state/store.ts';

/** Jobs kept here and at the server: open, search, copy, put out of the way; new houses; job files. */
export const JobsPanel = () => {
  const [search, setSearch] = useState('');
  const [archived, setArchived] = useState(false);
  const [jobs, setJobs] = useState<readonly ListedJob[]>();
  const current = useWorkbench((state) => state.jobId);
  const list = useCallback(async () => setJobs(await listJobs(search, archived)), [search, archived]);
  useEffect(() => void list(), [list]);
  return (
    <Panel title="Jobs">
      <NewAndFiles />
      <div className="panel-row">
        <input
          type="search"
          className="grows"
          aria-label="Search jobs"
          placeholder="Name, address, client, firm or place"
          value={search}
          onChange={(event) => setSearch(event.target.value)}
        />
        <label>
          <input type="checkbox" checked={archived} onChange={(event) => setArchived(event.target.checked)} />{' '}
          Archived
        </label>
      </div>
      <p className="quiet" role="status">
        {jobs?.length === 0 && (search ? 'No job holds these words.' : 'No job is kept here yet.')}
      </p>
      <ul className="panel-list" aria-label={archived ? 'Archived jobs' : 'Jobs'}>
        {jobs?.map((job) => (
          <JobLine key={job.id} job={job} current={job.id === current} onChange={list} />
        ))}
      </ul>
    </Panel>
  );
};

const places = { here: 'in this browser only', server: 'at the server', both: '' };

const JobLine = ({
  job: { id, name, archived, updatedAt, place },
  current,
  onChange,
}: {
  job: ListedJob;
  current: boolean;
  onChange: () => Promise<void>;
}) => {
  const open = async () => {
    if (await openKept(id)) closePanel();
  };
  return (
    <li>
      <div className="grows">
        <button type="button" className="link-button" onClick={() => void open()}>
          {name}
        </button>{' '}
        {current && <span className="quiet">open now</span>}
        <div className="quiet">
          {[new Date(updatedAt).toLocaleString(), places[place]].filter(Boolean).join(' · ')}
        </div>
      </div>
      <Act onClick={() => duplicateJob(id).then(closePanel)} of={name}>
        Duplicate
      </Act>
      <Act onClick={() => archiveJob(id, !archived).then(onChange)} of={name}>
        {archived ? 'Bring back' : 'Archive'}
      </Act>
    </li>
  );
};

const Act = ({
  of,
  onClick,
  children,
}: {
  of: string;
  onClick: () => Promise<void>;
  children: ReactNode;
}) => (
  <button
    type="button"
    className="plain-button"
    aria-label={`${children} ${of}`}
    onClick={() => void onClick()}
  >
    {children}
  </button>
);

const NewAndFiles = () => {
  const input = useRef<HTMLInputElement>(null);
  const opened = useWorkbench((state) => state.typed !== undefined);
  return (
    <div className="panel-row">
      <button type="button" className="plain-button" onClick={() => showPanel('new-house')}>
        New house …
      </button>
      <button type="button" className="plain-button" onClick={() => input.current?.click()}>
        Import a job file …
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label="Job file to import"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          closePanel();
          if (file) void openFile(file);
        }}
      />
      {opened && (
        <button type="button" className="plain-button" onClick={() => void exportJob()}>
          Export with photos …
        </button>
      )}
    </div>
  );
};
