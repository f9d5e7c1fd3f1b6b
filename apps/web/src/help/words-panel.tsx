import { useState } from 'react';
import { Panel } from '../shell/panel.tsx';
import { glossary } from './glossary.ts';
import './help.css';

/** Every word of the trade that the page uses, in plain words. */
export const WordsPanel = () => {
  const [typed, setTyped] = useState('');
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const found = glossary.filter(({ term, text }) =>
    words.every((word) => `${term} ${text}`.toLowerCase().includes(word)),
  );
  return (
    <Panel title="Words in plain language">
      <input
        type="search"
        className="words-find"
        aria-label="Find a word"
        placeholder="Find a word"
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      <dl className="words">
        {found.map(({ term, text }) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {found.length === 0 && <p className="quiet">No word fits “{typed}”.</p>}
    </Panel>
  );
};
