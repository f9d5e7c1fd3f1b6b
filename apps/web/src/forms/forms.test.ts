import { expect, test } from 'vitest';
import { allFields, fieldKind } from './field-kind.ts';
import { placedFields } from './forms.ts';

/** No property of the house: names that others refer to, and what other parts of the page keep. */
const kept = /^(\$schema|schemaVersion|states|photos|underlays|files)(\/|$)|(^|\/)id$/;

test('every surveyed property of the schema has a place in a form', () => {
  const placed = placedFields();
  expect(allFields().filter((field) => !kept.test(field) && !placed.has(field))).toEqual([]);
});

test('no form has a field that the schema does not know', () => {
  for (const field of placedFields()) expect(() => fieldKind(field), field).not.toThrow();
});
