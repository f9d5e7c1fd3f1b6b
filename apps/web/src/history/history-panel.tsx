import { describeDiff, type HistoryEntry } from '@airledger/job';
import { useState } from 'react';
import { useTypedJob } from '../document/document.ts';
import { takeBackAlone } from '../document/take-back-alone.ts';
import { callMe, whoAmI } from '../document/who.ts';
import { Panel } from '../shell/panel.tsx';
import { useWorkbench } from '../state/store.ts';

/** Every change of the job in words, with who and when; each can be taken back alone. */
export const HistoryPanel = () => {
  const history = useWorkbench((state) => state.history);
  const [name, setName] = useState(whoAmI());
  const [most, setMost] = useState(100);
  const [problem, setProblem] = useState('');
  const newestFirst = history.map((entry, index) => ({ entry, index })).toReversed();
  return (
    <Panel title="Change history">
      <div className="panel-row">
        <label htmlFor="who">Your name, written beside your changes</label>
        <input
          id="who"
          type="text"
          className="grows"
          autoComplete="name"
          value={name}
          onChange={(event) => {
            setName(event.target.value);
            callMe(event.target.value);
          }}
        />
      </div>
      {problem && <p role="alert">{problem}</p>}
      {history.length === 0 && <p className="quiet">Nothing has been changed yet.</p>}
      <ol className="panel-list" aria-label="Changes, the newest first">
        {newestFirst.slice(0, most).map(({ entry, index }) => (
          <Line
            key={`${entry.at} ${index}`}
            entry={entry}
            onTakeBack={() => {
              const result = takeBackAlone(index);
              setProblem(result.ok ? '' : result.errors.map(({ message }) => message).join(' '));
            }}
          />
        ))}
      </ol>
      {newestFirst.length > most && (
        <button type="button" className="link-button" onClick={() => setMost(most + 200)}>
          Show older changes
        </button>
      )}
    </Panel>
  );
};

const Line = ({ entry, onTakeBack }: { entry: HistoryEntry; onTakeBack: () => void }) => {
  const typed = useTypedJob();
  const lines = describeDiff(entry.diff, typed);
  return (
    <li>
      <div className="grows">
        {lines.length === 0 ? (
          entry.what
        ) : (
          <details>
            <summary>{entry.what}</summary>
            <ul>
              {lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </details>
        )}
        <div className="quiet">
          {entry.who} · <time dateTime={entry.at}>{new Date(entry.at).toLocaleString()}</time>
        </div>
      </div>
      {entry.diff.length > 0 && (
        <button
          type="button"
          className="plain-button"
          aria-label={`Take back: ${entry.what}`}
          onClick={onTakeBack}
        >
          Take back
        </button>
      )}
    </li>
  );
};
