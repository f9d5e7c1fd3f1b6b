import { expect, test } from 'vitest';
import { readingKinds } from '../schema/reading-schema.ts';
import { proceduresFor, testCautions, testProcedures } from './test-procedures.ts';

test('every kind of reading has a procedure, and every procedure names its source', () => {
  for (const kind of readingKinds) expect(proceduresFor(kind), kind).not.toEqual([]);
  for (const { id, source, steps } of testProcedures) {
    expect(source, id).toMatch(/from memory|common practice/);
    expect(steps.length, id).toBeGreaterThan(3);
  }
});

test('whatever puts the house under pressure comes with the caution about burners first', () => {
  for (const { id, steps, cautions } of testProcedures)
    if (/blower door|to −50 Pa|house to 25 Pa/i.test(steps.join(' ')))
      expect(cautions[0], id).toBe('combustion');
});

test('no procedure names a caution that is not there', () => {
  const known = new Set(testCautions.map(({ id }) => id));
  for (const { cautions } of testProcedures) for (const id of cautions) expect(known).toContain(id);
});
