import { registerSW } from 'virtual:pwa-register';
import { useEffect, useState } from 'react';
import { save } from '../keeping/autosave.ts';
import { useWorkbench } from '../state/store.ts';

/** A page that shows no house puts itself by for offline work all the same, after this, ms. */
const patience_ms = 5000;

/** Says when a newer version of the program waits, and changes over when asked. */
export const UpdateStatus = () => {
  const [changeOver, setChangeOver] = useState<() => Promise<void>>();
  // Putting everything by for offline work would take the first house the time that it needs to be solved.
  const solved = useWorkbench((state) => state.readings[state.viewed] !== undefined);
  const [late, setLate] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLate(true), patience_ms);
    return () => clearTimeout(timer);
  }, []);
  const now = solved || late;
  useEffect(() => {
    if (!now) return;
    const update = registerSW({ onNeedRefresh: () => setChangeOver(() => () => update(true)) });
  }, [now]);
  if (!changeOver) return null;
  return (
    <button type="button" className="link-button" onClick={() => void save().then(changeOver)}>
      A newer version is ready: change over
    </button>
  );
};
