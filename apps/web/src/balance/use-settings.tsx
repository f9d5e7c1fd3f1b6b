import type { DamperSetting } from '@airledger/engine';
import { setMany } from '@airledger/job';
import { useState } from 'react';
import { edit } from '../document/document.ts';
import { useStateName } from '../state/select.ts';

/** Writes the settings into the state in view, as one step that can be taken back. */
export const UseSettings = ({
  settings,
  newDampers,
  name,
}: {
  settings: readonly DamperSetting[];
  newDampers: boolean;
  name: (id: string) => string;
}) => {
  const state = useStateName();
  const [said, setSaid] = useState<string>();
  const dampers = settings.filter(
    ({ part, before, position }) =>
      part !== undefined && (newDampers || Math.round(100 * before!) !== Math.round(100 * position!)),
  );
  const write = () => {
    const result = edit('Set dampers to balance', (job) =>
      dampers.reduce(
        (next, { system, part, position }) =>
          setMany(next, [`systems/${system}/parts/${part}/damper`], `${Math.round(100 * position!)} %`),
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
        {said ??
          (dampers.length === 0
            ? 'They stand as they should.'
            : `Changes ${dampers.map(({ part }) => name(part!)).join(', ')}.`)}
      </span>
    </p>
  );
};
