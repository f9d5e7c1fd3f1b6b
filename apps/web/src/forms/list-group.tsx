import { valueAt } from '@airledger/job';
import { useState } from 'react';
import { useResolvedJob } from '../document/document.ts';
import { editValues, errorAt } from './edit-values.ts';
import { FieldsOf } from './fields-of.tsx';
import type { Group } from './forms.ts';

/** What a new item of a list needs to be one. */
const begun: Readonly<Record<string, (house: { zones?: readonly { id: string }[] }) => unknown>> = {
  leaks: () => ({ place: 'joint', tightness: 'typical' }),
  fittings: () => ({ name: 'elbow 90° flex, smooth, r/D 1 to 1.5' }),
  leakageTo: (house) => ({ zone: house.zones?.[0]?.id ?? '', share: '10 %' }),
  leakage: () => ({ side: 'supply', flow: '50 cfm' }),
  repairs: () => ({ repair: 'seal-mastic' }),
  setbacks: () => ({ from: 22, to: 6, heating: '64 °F' }),
  tariffs: () => ({ fuel: 'electricity', price: '0.18 $/kWh' }),
  blocks: () => ({ fuel: 'electricity', above: '1000 kWh', price: '0.22 $/kWh' }),
  periods: () => ({ fuel: 'electricity', from: 16, to: 21, price: '0.35 $/kWh' }),
};

/** The items of a list of a record, each with its fields; more can be added, and each taken away. */
export const ListGroup = ({ group, pattern, path }: { group: Group; pattern: string; path: string }) => {
  const job = useResolvedJob();
  const [problem, setProblem] = useState<string>();
  if (!job) return null;
  const items = (valueAt(job, path) ?? []) as readonly unknown[];
  const change = (label: string, value: unknown) => {
    const result = editValues(label, [{ path, value }]);
    setProblem(result.ok ? undefined : errorAt(result.errors, path));
  };
  return (
    <fieldset className="field-group">
      <legend>{group.title}</legend>
      {items.map((item, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the items have no identity but their place
        <fieldset key={i} className="list-item" aria-label={`${group.title} ${i + 1}`}>
          {typeof item === 'string' ? (
            <div className="list-name">
              <span>{item}</span>
              <button
                type="button"
                className="link-button"
                onClick={() => change('Fitting with its figures', items.with(i, { name: item }))}
              >
                More …
              </button>
            </div>
          ) : (
            <FieldsOf fields={group.fields} pattern={`${pattern}/*`} path={`${path}/${i}`} />
          )}
          <button
            type="button"
            className="link-button"
            aria-label={`Remove ${group.title.toLowerCase()} ${i + 1}`}
            onClick={() => change(`${group.title}: one removed`, items.toSpliced(i, 1))}
          >
            Remove
          </button>
        </fieldset>
      ))}
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
      <button
        type="button"
        className="link-button"
        onClick={() => change(`${group.title}: one added`, [...items, begun[path.split('/').at(-1)!]!(job)])}
      >
        Add
      </button>
    </fieldset>
  );
};
