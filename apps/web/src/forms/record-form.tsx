import { FieldsOf } from './fields-of.tsx';
import type { Form, Group } from './forms.ts';
import { ListGroup } from './list-group.tsx';
import './forms.css';

/** A record of the job with a place for everything that is surveyed of it. */
export const RecordForm = ({ form, path }: { form: Form; path: string }) => (
  <div className="record-form">
    {form.groups.map((group) =>
      group.list === undefined ? (
        <FieldGroup key={group.title} group={group} pattern={form.pattern} path={path} />
      ) : (
        <ListGroup
          key={group.title}
          group={group}
          pattern={`${form.pattern}/${group.list}`}
          path={`${path}/${group.list}`}
        />
      ),
    )}
  </div>
);

const FieldGroup = ({ group, pattern, path }: { group: Group; pattern: string; path: string }) => (
  <fieldset className="field-group">
    <legend>{group.title}</legend>
    <FieldsOf fields={group.fields} pattern={pattern} path={path} />
  </fieldset>
);
