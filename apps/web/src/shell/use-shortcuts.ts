import { useEffect } from 'react';
import { redo, undo } from '../document/document.ts';

/** Keys that work anywhere on the page, except while text is typed. */
export const useShortcuts = (): void => {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (typing(event.target)) return;
      const key = event.key.toLowerCase();
      const control = event.ctrlKey || event.metaKey;
      if (key === '/' && !control) document.getElementById('search')?.focus();
      else if (control && key === 'z' && !event.shiftKey) undo();
      else if (control && (key === 'y' || (key === 'z' && event.shiftKey))) redo();
      else return;
      event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
};

const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement ||
  target instanceof HTMLSelectElement ||
  (target instanceof HTMLInputElement && (target.type === 'text' || target.type === 'search'));
