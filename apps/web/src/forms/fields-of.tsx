import { useWorkbench } from '../state/store.ts';
import { Field } from './field.tsx';
import { fieldKind } from './field-kind.ts';
import { fieldLabel, fieldPath, type Group } from './forms.ts';

/** Fields of a record, in order. */
export const FieldsOf = ({
  fields,
  pattern,
  path,
}: {
  fields: Group['fields'];
  pattern: string;
  path: string;
}) => {
  const house = useWorkbench((state) => `${state.jobId} ${state.viewed}`);
  const under = (base: string, field: string) => (base === '' ? field : `${base}/${field}`);
  return fields.map((field) => {
    const own = under(pattern, fieldPath(field)).replace(/between\/\d$/, 'between');
    const at = under(path, fieldPath(field));
    // Made anew for another house or state, so that nothing half typed is carried over.
    return (
      <Field key={`${house} ${at}`} path={at} pattern={own} label={fieldLabel(field)} kind={fieldKind(own)} />
    );
  });
};
