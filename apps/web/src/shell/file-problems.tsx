import { useEffect, useRef } from 'react';
import { dismissRefused } from '../state/actions.ts';
import type { RefusedFile } from '../state/store.ts';
import { Scrolls } from './scrolls.tsx';
import './file-problems.css';

/** Everything that is wrong with a file, all at once: where, what stands there, what is expected, what to do. */
export const FileProblems = ({ refused: { fileName, problems } }: { refused: RefusedFile }) => {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => box.current?.showModal(), []);
  const count = problems.length === 1 ? 'one thing' : `${problems.length} things`;
  return (
    <dialog ref={box} className="problems" aria-labelledby="problems-title" onClose={dismissRefused}>
      <h2 id="problems-title">
        {fileName} was not opened: {count} to put right
      </h2>
      <Scrolls className="problem-list" label="What is wrong">
        <ol>
          {problems.map((problem) => (
            <li key={problem.message}>
              <code className="problem-path">{problem.path || 'the whole file'}</code>
              <dl>
                <dt>stands</dt>
                <dd>
                  <code>{problem.value}</code>
                </dd>
                <dt>expected</dt>
                <dd>{problem.expected}</dd>
                <dt>to do</dt>
                <dd>{problem.remedy}</dd>
              </dl>
            </li>
          ))}
        </ol>
      </Scrolls>
      <div>
        <button type="button" className="plain-button" onClick={() => box.current?.close()}>
          Close
        </button>
      </div>
    </dialog>
  );
};
