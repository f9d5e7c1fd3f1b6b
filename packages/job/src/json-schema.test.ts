import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { jobJsonSchema } from './json-schema.ts';

const committed = new URL('../../../docs/job.schema.json', import.meta.url);

test('docs/job.schema.json is what the schema says; `npx tsx scripts/write-schema.ts` renews it', () =>
  expect(JSON.parse(readFileSync(committed, 'utf8'))).toEqual(JSON.parse(JSON.stringify(jobJsonSchema()))));

test('every field has a description or speaks for itself', () => {
  const silent: string[] = [];
  const walk = (schema: unknown, path: string): void => {
    if (typeof schema !== 'object' || schema === null) return;
    const { properties, items, anyOf } = schema as Record<string, unknown>;
    for (const [key, field] of Object.entries((properties as Record<string, object> | undefined) ?? {})) {
      if ('unit' in field && !('description' in field && '$ref' in field)) silent.push(`${path}/${key}`);
      walk(field, `${path}/${key}`);
    }
    walk(items, path);
    if (Array.isArray(anyOf)) for (const branch of anyOf) walk(branch, path);
  };
  walk(jobJsonSchema(), '');
  expect(silent).toEqual([]);
});
