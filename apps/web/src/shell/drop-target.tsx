import { type ReactNode, useState } from 'react';
import { openFile } from '../state/actions.ts';
import './drop-target.css';

/** Takes a job file that is dropped anywhere on the page. */
export const DropTarget = ({ children }: { children: ReactNode }) => {
  const [over, setOver] = useState(false);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is a second way; the file menu is the first
    <div
      onDragOver={(event) => {
        if (!event.dataTransfer.types.includes('Files')) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => event.currentTarget === event.target && setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer.files[0];
        if (file) void openFile(file);
      }}
    >
      {children}
      {over && <div className="drop-here">Drop the job file to open it</div>}
    </div>
  );
};
