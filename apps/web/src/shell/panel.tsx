import { type ReactNode, useEffect, useId, useRef } from 'react';
import { closePanel } from './panel-store.ts';
import { Scrolls } from './scrolls.tsx';
import './panel.css';

/** A panel over the page, closed with Escape or its button. */
export const Panel = ({ title, children }: { title: string; children: ReactNode }) => {
  const box = useRef<HTMLDialogElement>(null);
  const head = useId();
  useEffect(() => box.current?.showModal(), []);
  return (
    <dialog ref={box} className="panel" aria-labelledby={head} onClose={closePanel}>
      <div className="panel-head">
        <h2 id={head}>{title}</h2>
        <button type="button" className="plain-button" onClick={() => box.current?.close()}>
          Close
        </button>
      </div>
      <Scrolls className="panel-body" label={title}>
        {children}
      </Scrolls>
    </dialog>
  );
};
