import { useEffect, useRef, useState } from 'react';
import { canRedo, canUndo, redo, undo } from '../document/document.ts';
import { useDraw } from '../draw/draw-store.ts';
import { exportJob } from '../keeping/jobs.ts';
import { openAddress, openFile } from '../state/actions.ts';
import { useWorkbench } from '../state/store.ts';
import { switchFieldMode } from './field-mode.ts';
import { useDemos } from './first-job.ts';
import { showPanel } from './panel-store.ts';
import { printHandover } from './print-handover.ts';

/** Opening a house, and taking back what was tried. */
export const FileMenu = () => {
  const [shown, setShown] = useState(false);
  const menu = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const demos = useDemos((state) => state.demos);
  const opened = useWorkbench((state) => state.job !== undefined);
  const field = useDraw((state) => state.field);
  const undoable = useWorkbench(canUndo);
  const redoable = useWorkbench(canRedo);
  useEffect(() => {
    if (!shown) return;
    const outside = (event: PointerEvent) => {
      if (!menu.current?.contains(event.target as Node)) setShown(false);
    };
    document.addEventListener('pointerdown', outside);
    return () => document.removeEventListener('pointerdown', outside);
  }, [shown]);
  const then = (act: () => void) => () => {
    act();
    setShown(false);
    button.current?.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes the menu from any of its buttons
    <div
      className="menu"
      ref={menu}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !shown) return;
        setShown(false);
        button.current?.focus();
      }}
    >
      <button
        ref={button}
        type="button"
        className="plain-button"
        aria-expanded={shown}
        onClick={() => setShown(!shown)}
      >
        File
      </button>
      {shown && (
        <div className="menu-list">
          <button type="button" onClick={then(() => showPanel('jobs'))}>
            Jobs …
          </button>
          <button type="button" onClick={then(() => showPanel('new-house'))}>
            New house …
          </button>
          <OpenButton onDone={() => setShown(false)} />
          {opened && (
            <>
              <button type="button" onClick={then(() => void exportJob())}>
                Export with photos …
              </button>
              <button type="button" onClick={then(() => showPanel('states'))}>
                States and their changes …
              </button>
              <button type="button" onClick={then(() => showPanel('history'))}>
                Change history …
              </button>
            </>
          )}
          <button type="button" aria-pressed={field} onClick={then(switchFieldMode)}>
            Field mode <span className="quiet">{field ? 'on' : 'off'}</span>
          </button>
          <button type="button" onClick={then(() => showPanel('words'))}>
            Words in plain language …
          </button>
          <button type="button" disabled={!undoable} onClick={then(undo)}>
            Undo <span className="quiet">Ctrl Z</span>
          </button>
          <button type="button" disabled={!redoable} onClick={then(redo)}>
            Redo <span className="quiet">Ctrl Y</span>
          </button>
          {opened && (
            <button type="button" onClick={then(() => void printHandover())}>
              Handover to print …
            </button>
          )}
          {demos.length > 0 && <p className="menu-part">Demo houses</p>}
          {demos.map(({ name, url }) => (
            <button key={url} type="button" onClick={then(() => void openAddress(name, url))}>
              {houseName(name)}
            </button>
          ))}
        </div>
      )}
    </div>
  );
};

const houseName = (fileName: string): string => {
  const words = fileName.replace('.airledger.json', '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** A button that lets the user pick a job file. */
export const OpenButton = ({ className, onDone }: { className?: string; onDone?: () => void }) => {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        Open a job file …
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label="Job file"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) void openFile(file);
          onDone?.();
        }}
      />
    </>
  );
};
