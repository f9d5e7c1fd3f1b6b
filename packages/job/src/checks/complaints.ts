import { type JobError, jobError } from '../job-error.ts';
import { segmentOf } from '../states/job-path.ts';
import { isLoose, type Loose } from './loose.ts';

/** Collects errors of one check. */
export type Complain = (path: string, value: string, expected: string, remedy: string) => void;

export const collect = (check: (complain: Complain) => void): readonly JobError[] => {
  const errors: JobError[] = [];
  check((...error) => errors.push(jobError(...error)));
  return errors;
};

/** Records of a list with the path of each. */
export const placed = (
  holder: unknown,
  path: string,
  list: string,
): readonly { readonly path: string; readonly record: Loose }[] => {
  const items = isLoose(holder) ? holder[list] : undefined;
  if (!Array.isArray(items)) return [];
  return items.flatMap((record, i) =>
    isLoose(record)
      ? [{ path: `${path === '' ? '' : `${path}/`}${list}/${segmentOf(items, i)}`, record }]
      : [],
  );
};
