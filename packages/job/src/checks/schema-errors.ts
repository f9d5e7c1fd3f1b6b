import { z } from 'zod';
import { type JobError, jobError, shown } from '../job-error.ts';
import type { IssueParams } from '../schema/fields.ts';
import { jobSchema } from '../schema/job-schema.ts';
import { segmentOf } from '../states/job-path.ts';
import { suggestion } from '../suggestion.ts';

type Issue = z.core.$ZodIssue;
type Key = string | number;

const step = (value: unknown, key: PropertyKey): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined;

const pathOf = (root: unknown, keys: readonly PropertyKey[]): string => {
  let value = root;
  return keys
    .map((key) => {
      const segment = segmentOf(value, key as Key);
      value = step(value, key);
      return segment;
    })
    .join('/');
};

/** Schemas that may stand at a place, through options and lists. */
const schemasAt = (keys: readonly PropertyKey[]): readonly z.core.$ZodType[] => {
  const opened = (schema: z.core.$ZodType): readonly z.core.$ZodType[] => {
    if (schema instanceof z.ZodOptional) return opened(schema.unwrap());
    if (schema instanceof z.ZodUnion) return schema.options.flatMap(opened);
    return [schema];
  };
  let at = opened(jobSchema);
  for (const key of keys)
    at = at
      .flatMap((schema): readonly z.core.$ZodType[] => {
        if (schema instanceof z.ZodObject)
          return schema.shape[key as string] ? [schema.shape[key as string]] : [];
        return schema instanceof z.ZodArray ? [schema.element] : [];
      })
      .flatMap(opened);
  return at;
};

const fieldsAt = (keys: readonly PropertyKey[]): readonly string[] => [
  ...new Set(
    schemasAt(keys).flatMap((schema) => (schema instanceof z.ZodObject ? Object.keys(schema.shape) : [])),
  ),
];

const typeWords: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a record',
  nonoptional: 'a value',
};

const helpAt = (keys: readonly PropertyKey[]): string => {
  const [first] = schemasAt(keys);
  // Every schema here is made by zod itself, so it knows its own description; the core type does not say so.
  const help = (first as z.ZodType | undefined)?.description;
  return help === undefined ? '' : ` (${help.replace(/\.$/, '')})`;
};

const quoted = (values: readonly unknown[]): string =>
  values.map((value) => JSON.stringify(value)).join(', ');

/** The branch of a union that the input most likely meant. */
const meant = (branches: readonly (readonly Issue[])[]): readonly Issue[] => {
  const cost = (issues: readonly Issue[]): number =>
    issues.reduce(
      (sum, issue) => sum + (issue.code === 'invalid_type' && issue.path.length === 0 ? 100 : 1),
      0,
    );
  return [...branches].sort((a, b) => cost(a) - cost(b))[0] ?? [];
};

const translate = (root: unknown, issue: Issue, before: readonly PropertyKey[] = []): readonly JobError[] => {
  const keys = [...before, ...issue.path];
  const path = pathOf(root, keys);
  const input = keys.reduce<unknown>(step, root);
  const error = (value: string, expected: string, remedy: string): JobError =>
    jobError(path, value, expected, remedy);
  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = fieldsAt(keys);
      return issue.keys.map((key) =>
        jobError(
          path === '' ? key : `${path}/${key}`,
          `the unknown field "${key}"`,
          `one of ${known.join(', ')}`,
          suggestion(key, known, 'Remove it, or keep it in a note.'),
        ),
      );
    }
    case 'invalid_type': {
      const expected = typeWords[issue.expected] ?? issue.expected;
      return input === undefined
        ? [error('nothing', `${expected}${helpAt(keys)}`, `Add "${String(keys.at(-1))}".`)]
        : [error(shown(input), expected, `Write ${expected} here${helpAt(keys)}.`)];
    }
    case 'invalid_value':
      return [
        error(
          shown(input),
          issue.values.length === 1 ? quoted(issue.values) : `one of ${quoted(issue.values)}`,
          typeof input === 'string'
            ? suggestion(input, issue.values.map(String), 'Pick the one that fits best.')
            : input === undefined
              ? `Add "${String(keys.at(-1))}".`
              : 'Pick the one that fits best.',
        ),
      ];
    case 'invalid_format':
      return [
        error(
          shown(input),
          'an id of lower-case letters, digits and single hyphens',
          'Write it like "bedroom-2".',
        ),
      ];
    case 'too_small':
    case 'too_big': {
      const least = issue.code === 'too_small';
      const bound = least ? issue.minimum : issue.maximum;
      if (issue.origin === 'array')
        return [
          error(
            `a list of ${(input as unknown[]).length}`,
            `${least ? 'at least' : 'at most'} ${bound}`,
            least ? 'Add what is missing.' : 'Remove what is too much.',
          ),
        ];
      return [error(shown(input), `a number of ${bound} or ${least ? 'more' : 'less'}`, 'Check the number.')];
    }
    case 'invalid_union':
      return meant(issue.errors).flatMap((inner) => translate(root, inner, keys));
    case 'custom': {
      const { value, expected, remedy } = issue.params as IssueParams;
      return [error(value ?? shown(input), expected, remedy)];
    }
    default:
      return [error(shown(input), 'something else', issue.message)];
  }
};

/** What a job breaks of its schema; none when the shape and every single value are possible. */
export const schemaErrors = (job: unknown): readonly JobError[] => {
  const result = jobSchema.safeParse(job);
  return result.success ? [] : result.error.issues.flatMap((issue) => translate(job, issue));
};
