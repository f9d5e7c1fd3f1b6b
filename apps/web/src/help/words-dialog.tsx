import { useEffect, useRef, useState } from 'react';
import { glossary } from './glossary.ts';
import './help.css';

/** Every word of the trade that the page uses, in plain words. */
export const WordsDialog = ({ onClose }: { onClose: () => void }) => {
  const box = useRef<HTMLDialogElement>(null);
  const [typed, setTyped] = useState('');
  useEffect(() => box.current?.showModal(), []);
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const found = glossary.filter(({ term, text }) =>
    words.every((word) => `${term} ${text}`.toLowerCase().includes(word)),
  );
  return (
    <dialog ref={box} className="words" aria-label="Words in plain language" onClose={onClose}>
      <div className="words-head">
        <h2>Words</h2>
        <input
          type="search"
          aria-label="Find a word"
          placeholder="Find a word"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
        <button type="button" className="plain-button" onClick={() => box.current?.close()}>
          Close
        </button>
      </div>
      <dl>
        {found.map(({ term, text }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {found.length === 0 && <p className="quiet">No word fits “{typed}”.</p>}
    </dialog>
  );
};
