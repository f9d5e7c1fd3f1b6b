import { type AsFoundChoice, applyChoice, choicesAt } from '@airledger/job';
import { useState } from 'react';
import { edit, useResolvedJob } from '../document/document.ts';
import { SealingCaution } from '../help/sealing-caution.tsx';
import { asFoundRange, seals } from './as-found-words.ts';

/** What a survey sees of a duct or air handler, in words; each choice writes ranges of numbers with their source. */
export const AsFound = ({ path }: { path: string }) => {
  const job = useResolvedJob();
  const [problem, setProblem] = useState<string>();
  const [shown, setShown] = useState<string>();
  if (!job) return null;
  const choices = choicesAt(job, path);
  if (choices.length === 0) return null;
  const groups = [...new Set(choices.map(({ group }) => group))];
  const choice = choices.find(({ id }) => id === shown);
  const take = (chosen: AsFoundChoice | undefined) => {
    if (!chosen) return setProblem('Choose first what is to be seen.');
    const { id, words } = chosen;
    const result = edit(`As found: ${words}`, (house) => applyChoice(house, path, id));
    setProblem(result.ok ? undefined : result.errors[0]?.message);
    if (result.ok) setShown(undefined);
  };
  return (
    <fieldset className="field-group as-found">
      <legend>As found</legend>
      <div className="field-row">
        <select
          aria-label="What is to be seen"
          value={shown ?? ''}
          onChange={(event) => {
            setShown(event.target.value || undefined);
            setProblem(undefined);
          }}
        >
          <option value="">What is to be seen …</option>
          {groups.map((group) => (
            <optgroup key={group} label={group}>
              {choices
                .filter((each) => each.group === group)
                .map(({ id, words }) => (
                  <option key={id} value={id}>
                    {words}
                  </option>
                ))}
            </optgroup>
          ))}
        </select>
        <button type="button" className="plain-button" onClick={() => take(choice)}>
          Record it
        </button>
      </div>
      {choice && (
        <p className="field-about" role="status">
          {asFoundRange(choice)} · estimated · {choice.source}
        </p>
      )}
      {choice && seals(choice) && <SealingCaution />}
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </fieldset>
  );
};
