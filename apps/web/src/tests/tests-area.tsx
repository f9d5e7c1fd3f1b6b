import { useState } from 'react';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { useStateName } from '../state/select.ts';
import { Findings } from './findings.tsx';
import { Results } from './results.tsx';
import { Sheets } from './sheets.tsx';
import './tests-area.css';

type Tab = 'sheets' | 'results' | 'findings';

const tabs: readonly { readonly value: Tab; readonly words: string }[] = [
  { value: 'sheets', words: 'Sheets' },
  { value: 'results', words: 'Leakage results' },
  { value: 'findings', words: 'Where the air goes' },
];

/** Tests: sheets to type readings into, what leakage tests come to, and what all readings say of the house. */
export const TestsArea = () => {
  const [tab, setTab] = useState<Tab>('sheets');
  const state = useStateName();
  return (
    <Scrolls className="sheet page-area tests-area" label="Tests">
      <header>
        <h2>Tests</h2>
        <span className="quiet">{state}</span>
        <Segmented label="Part of the tests" choices={tabs} value={tab} onChange={setTab} />
      </header>
      {tab === 'sheets' && <Sheets />}
      {tab === 'results' && <Results />}
      {tab === 'findings' && <Findings />}
    </Scrolls>
  );
};
