import { useEffect } from 'react';
import { AccountPanel } from '../account/account-panel.tsx';
import { useResolvedJob } from '../document/document.ts';
import { choosePart } from '../state/actions.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { Canvas } from './canvas.tsx';
import { zoomToAll, zoomToSelection } from './commands.ts';
import { ConfirmFittings } from './confirm-fittings.tsx';
import { DrawBar } from './draw-bar.tsx';
import { useDraw } from './draw-store.ts';
import { contextNow } from './hear.ts';
import { onPageKey } from './keys.ts';
import { useSelection } from './selection.ts';
import { Storeys } from './storeys.tsx';
import { ToolOptions } from './tool-options.tsx';
import { tools } from './tools.ts';
import { TypedFields } from './typed-fields.tsx';
import './draw.css';

/** The card beside the drawing shows the room or the duct that is selected. */
const useSelectedInHand = (): void => {
  const selected = useSelection().at(-1);
  useEffect(() => {
    const room = selected?.kind === 'room' ? selected.id : selected?.room;
    if (room !== undefined) useWorkbench.setState({ room, part: undefined });
    else if (selected?.kind === 'part') choosePart(selected.id);
  }, [selected]);
};

/** The house as a drawing to work on, and its account below. */
export const DrawArea = () => {
  const job = useResolvedJob();
  useSelectedInHand();
  useEffect(() => {
    document.addEventListener('keydown', onPageKey);
    return () => document.removeEventListener('keydown', onPageKey);
  }, []);
  const account = useAccount();
  if (!job) return null;
  return (
    <>
      <section className="sheet draw-panel" aria-label="Drawing">
        <div className="draw-head">
          <DrawBar />
          <span className="push" />
          <Storeys job={job} />
          <Switches />
        </div>
        <div className="draw-options">
          <ToolOptions job={job} />
        </div>
        <div className="draw-board">
          <Canvas job={job} account={account} />
          <ConfirmFittings job={job} />
          <div className="draw-foot">
            <Hint />
            <TypedFields />
            <ViewButtons />
          </div>
        </div>
      </section>
      {account && <AccountPanel account={account} />}
    </>
  );
};

const Switches = () => {
  const field = useDraw((state) => state.field);
  const snaps = useDraw((state) => state.snaps);
  return (
    <>
      <label className="draw-switch" title="Draw to corners, walls, ducts and the grid">
        <input
          type="checkbox"
          checked={snaps}
          onChange={(event) => useDraw.setState({ snaps: event.target.checked })}
        />
        Snap
      </label>
      <label className="draw-switch" title="Larger handles and buttons, for fingers and gloves">
        <input
          type="checkbox"
          checked={field}
          onChange={(event) => useDraw.setState({ field: event.target.checked })}
        />
        Field
      </label>
    </>
  );
};

const ViewButtons = () => (
  <>
    <button
      type="button"
      className="plain-button"
      title="Zoom to what is selected (F)"
      onClick={zoomToSelection}
    >
      Fit
    </button>
    <button type="button" className="plain-button" title="Whole storey (H)" onClick={zoomToAll}>
      Whole
    </button>
  </>
);

/** What to do next, or why something was not done. */
const Hint = () => {
  const { toolId, toolState, note } = useDraw();
  // What is selected and where is part of what to do next.
  useWorkbench((state) => state.typed);
  const context = contextNow();
  const tool = tools[toolId];
  return (
    <p className="draw-hint" id="draw-hint" aria-live="polite">
      {note ? <strong>{note}</strong> : context ? tool.hint(toolState ?? tool.start, context) : ''}
      <span className="unseen">
        {' '}
        Arrow keys move the crosshair, Enter clicks, Escape stops; Control with arrow keys moves what is
        selected.
      </span>
    </p>
  );
};
