import type { HowKnown } from '@airledger/engine';
import { useState } from 'react';
import { loadedLater } from '../shell/loaded-later.tsx';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { useBaseSurvey } from '../state/select.ts';
import type { TableName } from '../tables/table-kinds.ts';
import './survey.css';
import { countKnown, factLines } from './known.ts';

const SurveyTable = loadedLater(async () => (await import('../tables/survey-tables.tsx')).SurveyTable);
const HouseForms = loadedLater(async () => (await import('../tables/survey-tables.tsx')).HouseForms);

type Tab = 'known' | 'house' | TableName;

const tabs: readonly { readonly value: Tab; readonly words: string }[] = [
  { value: 'house', words: 'House' },
  { value: 'rooms', words: 'Rooms' },
  { value: 'zones', words: 'Zones' },
  { value: 'surfaces', words: 'Surfaces' },
  { value: 'doors', words: 'Doors' },
  { value: 'ducts', words: 'Ducts' },
  { value: 'registers', words: 'Registers' },
  { value: 'leaks', words: 'Leaks' },
  { value: 'tests', words: 'Tests' },
  { value: 'ventilators', words: 'Fans' },
  { value: 'known', words: 'Known' },
];

/** The survey: forms of the house, tables to type in, and how every value is known. */
export const SurveyArea = () => {
  const [tab, setTab] = useState<Tab>('house');
  return (
    <Scrolls className="sheet page-area" label="Survey">
      <header className="survey-tabs">
        <h2>Survey</h2>
        <Segmented label="Part of the survey" choices={tabs} value={tab} onChange={setTab} />
      </header>
      {tab === 'known' ? (
        <KnownValues />
      ) : tab === 'house' ? (
        <HouseForms />
      ) : (
        <SurveyTable key={tab} name={tab} />
      )}
    </Scrolls>
  );
};

/** What is known of the house, how it is known, and what merely stands in. */
const KnownValues = () => {
  const survey = useBaseSurvey();
  const [shown, setShown] = useState<HowKnown | 'all'>('assumed');
  if (!survey) return null;
  const counts = countKnown(survey.facts);
  const lines = factLines(survey.facts, shown);
  const choices = (['assumed', 'estimated', 'read off', 'measured', 'all'] as const).map((value) => ({
    value,
    words: `${value.charAt(0).toUpperCase()}${value.slice(1)} ${counts[value]}`,
  }));
  return (
    <>
      <div className="table-tools">
        <Segmented label="Values shown" choices={choices} value={shown} onChange={setShown} />
        <span className="quiet">{survey.site.designSource}</span>
      </div>
      {lines.length === 0 ? (
        <p className="quiet">No value of this survey is {shown === 'all' ? 'written down' : shown}.</p>
      ) : (
        <table>
          <caption className="unseen">Values of the survey</caption>
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">Value</th>
              <th scope="col">How known</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ path, fact }) => (
              <tr key={path}>
                <th scope="row">{placeWords(path)}</th>
                <td>{fact.typed}</td>
                <td className="known">{fact.defaulted ? `${fact.howKnown}, filled in` : fact.howKnown}</td>
                <td className="quiet">{fact.source ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
};

/** "doors/door-bath/shutArea" as "doors › door-bath › shut area". */
const placeWords = (path: string): string =>
  path.replaceAll('/', ' › ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
