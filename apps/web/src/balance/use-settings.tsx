import type { DamperSetting } from '@airledger/engine';
import { setMany } from '@airledger/job';
import { useState } from 'react';
import { edit } from '../document/document.ts';
import { useBaseSurvey, useStateName } from '../state/select.ts';

/** Writes the settings into the state in view, as one step that can be taken back. */
export const UseSettings = ({
  settings,
  name,
}: {
  settings: readonly DamperSetting[];
  name: (id: string) => string;
}) => {
  const state = useStateName();
  const survey = useBaseSurvey();
  const [said, setSaid] = useState<string>();
  const standing = (system: string, part: string | undefined) =>
    survey?.systems.find(({ id }) => id === system)?.parts.find(({ id }) => id === part)?.damper;
  const dampers = settings.filter(
    ({ system, part, position }) =>
      part !== undefined && percent(standing(system, part)) !== percent(position),
  );
  const write = () => {
    const result = edit('Set dampers to balance', (job) =>
      dampers.reduce(
        (next, { system, part, position }) =>
          setMany(next, [`systems/${system}/parts/${part}/damper`], percent(position)!),
        job,
      ),
    );
    setSaid(
      result.ok
        ? `${dampers.length} dampers set in “${state}”.`
        : result.errors.map(({ message }) => message).join(' '),
    );
  };
  return (
    <p className="use-settings">
      <button type="button" className="plain-button" disabled={dampers.length === 0} onClick={write}>
        Set these dampers in “{state}”
      </button>{' '}
      <span role="status" className="quiet">
        {said}{' '}
        {dampers.length === 0
          ? 'They stand as they should.'
          : `Changes ${dampers.map(({ part }) => name(part!)).join(', ')}.`}
      </span>
    </p>
  );
};

/** As it is typed into the job; undefined where there is no damper. */
const percent = (position: number | undefined): string | undefined =>
  position === undefined ? undefined : `${Math.round(100 * position)} %`;
