import type { HowKnown } from '@airledger/engine';
import { useState } from 'react';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { useBaseSurvey } from '../state/select.ts';
import './survey.css';
import { countKnown, factLines } from './known.ts';

/** What is known of the house, how it is known, and what merely stands in. */
export const SurveyArea = () => {
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
    <Scrolls className="sheet page-area" label="Survey">
      <header>
        <h2>Survey</h2>
        <span className="quiet">{survey.site.designSource}</span>
        <Segmented label="Values shown" choices={choices} value={shown} onChange={setShown} />
      </header>
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
    </Scrolls>
  );
};

/** "doors/door-bath/shutArea" as "doors › door-bath › shut area". */
const placeWords = (path: string): string =>
  path.replaceAll('/', ' › ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
