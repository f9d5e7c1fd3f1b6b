import { useState } from 'react';
import { keepTrials } from '../document/keep-trials.ts';
import { type Kept, useKeeping } from '../keeping/keeping-store.ts';
import { putBack } from '../state/actions.ts';
import { noTrials, useWorkbench } from '../state/store.ts';
import { showPanel } from './panel-store.ts';

const words: Record<Kept, string> = {
  nowhere: '',
  saving: 'Saving …',
  here: 'Saved in this browser',
  there: 'Saved',
  failed: 'Not saved',
};

/** Whether the work is safe, and what waits for a decision. */
export const KeptStatus = () => {
  const { kept, trouble, clashes } = useKeeping();
  return (
    <>
      <span role="status" className="kept" title={trouble}>
        {words[kept]}
        {kept === 'failed' && trouble && `: ${trouble}`}
      </span>
      {kept !== 'failed' && trouble && (
        <span role="alert" className="status-failure">
          The server does not take it: {trouble}
        </span>
      )}
      {clashes.length > 0 && (
        <button type="button" className="link-button" onClick={() => showPanel('clashes')}>
          {clashes.length === 1 ? 'One field' : `${clashes.length} fields`} changed in two places: choose
        </button>
      )}
    </>
  );
};

/** What is tried on the state in view, to be kept or put back. */
export const TriedStatus = () => {
  const trials = useWorkbench((state) => state.trials[state.viewed] ?? noTrials);
  const [refused, setRefused] = useState<{ readonly of: unknown; readonly words: string }>();
  const tried = Object.keys(trials).length;
  const keep = () => {
    const result = keepTrials();
    setRefused(
      result.ok ? undefined : { of: trials, words: result.errors.map(({ message }) => message).join(' ') },
    );
  };
  return (
    <>
      <span role="status">
        {tried > 0 && `${tried === 1 ? 'One value' : `${tried} values`} tried, not saved`}
      </span>
      {tried > 0 && (
        <>
          <button type="button" className="link-button" onClick={keep}>
            Keep {tried === 1 ? 'it' : 'these'}
          </button>
          <button type="button" className="link-button" onClick={putBack}>
            Put all back
          </button>
          {/* Of what is tried now, not of what was tried before. */}
          {refused?.of === trials && (
            <span role="alert" className="status-failure">
              Not kept: {refused.words}
            </span>
          )}
        </>
      )}
    </>
  );
};
