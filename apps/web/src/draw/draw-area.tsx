import { useEffect, useRef } from 'react';
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
import { toBoard } from './to-board.ts';
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
          <div className="draw-options">
            <ToolOptions job={job} />
          </div>
          <div className="draw-view">
            <Storeys job={job} />
            <SnapSwitch />
          </div>
        </div>
        <div className="draw-board">
          <Canvas job={job} account={account} />
          <ConfirmFittings job={job} />
          <div className="draw-foot">
            <Hint />
            <Offers />
            <TypedFields />
            <ViewButtons />
          </div>
        </div>
      </section>
      {account && <AccountPanel account={account} />}
    </>
  );
};

const SnapSwitch = () => {
  const snaps = useDraw((state) => state.snaps);
  return (
    <label className="draw-switch" title="Draw to corners, walls, ducts and the grid">
      <input
        type="checkbox"
        checked={snaps}
        onChange={(event) => useDraw.setState({ snaps: event.target.checked })}
      />
      Snap
    </label>
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

/** What could be done instead of what was refused; the first is in hand, Escape leaves all as it is. */
const Offers = () => {
  const offers = useDraw((state) => state.offers);
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (offers) first.current?.focus();
  }, [offers]);
  if (!offers) return null;
  const back = () => {
    useDraw.setState({ note: undefined, offers: undefined });
    toBoard();
  };
  return (
    <span className="draw-offers">
      {[...offers, { words: 'Leave it', act: back }].map(({ words, act }, i) => (
        <button
          key={words}
          ref={i === 0 ? first : undefined}
          type="button"
          className="plain-button"
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            event.stopPropagation();
            back();
          }}
          onClick={() => {
            act();
            toBoard();
          }}
        >
          {words}
        </button>
      ))}
    </span>
  );
};

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
