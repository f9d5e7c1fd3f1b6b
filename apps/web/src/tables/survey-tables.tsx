import { addSystem, EditRefused, type Job } from '@airledger/job';
import { useState } from 'react';
import { edit, useResolvedJob } from '../document/document.ts';
import { type FormName, forms } from '../forms/forms.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { EditTable } from './edit-table.tsx';
import { type TableKind, type TableName, tableKinds } from './table-kinds.ts';
import './tables.css';

const whole: readonly FormName[] = ['house', 'site', 'indoor', 'season', 'code', 'job'];

/** The forms of the whole house beside each other. */
export const HouseForms = () => (
  <div className="forms-of-house">
    {whole.map((name) => (
      <section key={name} aria-label={forms[name].title}>
        <RecordForm form={forms[name]} path={forms[name].pattern} />
      </section>
    ))}
  </div>
);

/** One table of the survey, made anew for each so that nothing half typed is carried over. */
export const SurveyTable = ({ name }: { name: TableName }) => {
  const job = useResolvedJob();
  const table: TableKind = tableKinds[name];
  const needsDucts = ['ducts', 'registers', 'leaks', 'tests'].includes(name);
  if (needsDucts && !job?.systems?.length) return <FirstSystem />;
  return <EditTable key={name} table={table} />;
};

/** A house without a system gets one to hang ducts on. */
const FirstSystem = () => {
  const [problem, setProblem] = useState<string>();
  const begin = () => {
    const result = edit('System begun', withSystem);
    setProblem(result.ok ? undefined : result.errors[0]?.message);
  };
  return (
    <div>
      <p>This house has no heating and cooling system yet.</p>
      <button type="button" className="plain-button" onClick={begin}>
        Begin a system with its plenums
      </button>
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
};

const assumed = (value: string) => ({ value, known: 'assumed' as const });

/** A system with its two plenums, every figure assumed: what ducts of a table join. */
const withSystem = (job: Job): Job => {
  const room = job.rooms[0];
  if (!room) throw new EditRefused('Add a room first.');
  const zone = job.zones?.[0]?.id ?? room.id;
  const plenum = (side: 'supply' | 'return') => ({
    id: `${side}-plenum`,
    side,
    role: 'plenum' as const,
    joins: 'air-handler',
    section: '20 in x 16 in',
    length: assumed('3 ft'),
    zone,
  });
  return addSystem(job, {
    id: 'main',
    thermostatRoom: room.id,
    equipment: {
      kind: 'furnace with air conditioner',
      heating: { output: assumed('60000 Btu/h') },
      cooling: { total: assumed('3 tons') },
    },
    airHandler: { zone },
    parts: [plenum('supply'), plenum('return')],
  });
};
