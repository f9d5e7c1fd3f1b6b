import { useWorkbench } from '../state/store.ts';
import { OpenButton } from './file-menu.tsx';
import { showPanel } from './panel-store.ts';

/** What there is before a house is open, or while it is solved for the first time. */
export const EmptyPage = () => {
  const loading = useWorkbench((state) => state.job !== undefined);
  const failure = useWorkbench((state) => state.failure);
  return (
    <main className="empty">
      {failure && <p role="alert">This house cannot be solved: {failure}</p>}
      {loading && !failure && <p>Solving the house …</p>}
      {(!loading || failure) && (
        <>
          <p>Begin a house from a few figures, or open one: choose a job file, or drop one here.</p>
          <button type="button" className="plain-button" onClick={() => showPanel('new-house')}>
            New house …
          </button>
          <OpenButton className="plain-button" />
        </>
      )}
    </main>
  );
};
