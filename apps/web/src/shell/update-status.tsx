import { registerSW } from 'virtual:pwa-register';
import { useEffect, useState } from 'react';
import { save } from '../keeping/autosave.ts';

/** Says when a newer version of the program waits, and changes over when asked. */
export const UpdateStatus = () => {
  const [changeOver, setChangeOver] = useState<() => Promise<void>>();
  useEffect(() => {
    const update = registerSW({ onNeedRefresh: () => setChangeOver(() => () => update(true)) });
  }, []);
  if (!changeOver) return null;
  return (
    <button type="button" className="link-button" onClick={() => void save().then(changeOver)}>
      A newer version is ready: change over
    </button>
  );
};
