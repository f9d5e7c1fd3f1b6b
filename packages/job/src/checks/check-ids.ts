import type { JobError } from '../job-error.ts';
import { type Complain, collect, placed } from './complaints.ts';
import { isLoose, type Loose, textAt } from './loose.ts';

type Placed = { readonly path: string; readonly record: Loose };

const reserved = new Set(['outdoors', 'ground', 'air-handler']);

const unique = (items: readonly Placed[], what: string, complain: Complain): void => {
  const first = new Map<string, string>();
  for (const { path, record } of items) {
    const id = textAt(record, 'id');
    if (id === undefined) continue;
    const before = first.get(id);
    if (before === undefined) first.set(id, path);
    else
      complain(
        path,
        `a second ${what} "${id}"`,
        `an id that no other ${what} has`,
        'Give one of the two another id.',
      );
    if (reserved.has(id))
      complain(`${path}/id`, `"${id}"`, 'an id that is not a word of the program', 'Choose another id.');
  }
};

/** Ids that occur twice where one name has to mean one thing. */
export const idErrors = (job: Loose): readonly JobError[] =>
  collect((complain) => {
    const spaces = [...placed(job, '', 'rooms'), ...placed(job, '', 'zones')];
    unique(spaces, 'room or zone', complain);
    for (const { path, record } of spaces) unique(placed(record, path, 'surfaces'), 'surface', complain);
    unique(placed(job, '', 'doors'), 'door', complain);
    unique(placed(job, '', 'transfers'), 'transfer path', complain);
    unique(placed(job, '', 'ventilators'), 'ventilator', complain);
    unique(placed(job, '', 'leakageTests'), 'leakage test', complain);
    unique(placed(job, '', 'readings'), 'reading', complain);
    unique(placed(job, '', 'states'), 'state', complain);
    unique(placed(job, '', 'photos'), 'photo', complain);
    const systems = placed(job, '', 'systems');
    unique(systems, 'system', complain);
    const parts = systems.flatMap(({ path, record }) => placed(record, path, 'parts'));
    unique(parts, 'duct part', complain);
    unique(
      parts.flatMap(({ path, record }) =>
        isLoose(record.terminal) ? [{ path: `${path}/terminal`, record: record.terminal }] : [],
      ),
      'register or grille',
      complain,
    );
    for (const { path, record } of parts) unique(placed(record, path, 'leaks'), 'leak', complain);
  });
