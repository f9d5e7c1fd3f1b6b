import type { LeakPlace } from '@airledger/engine';
import rows from '../../data/as-found.json' with { type: 'json' };
import type { Job, JobPart } from '../schema/job-schema.ts';
import { valueAt } from '../states/job-path.ts';
import { materials, named } from '../survey/tables.ts';

/** What a record is, for the words that fit it. */
export type AsFoundTag =
  | JobPart['role']
  | JobPart['side']
  | 'supply run'
  | 'return run'
  | 'duct'
  | 'air handler'
  | 'flex'
  | 'metal'
  | 'terminal'
  | 'filter';

/** What a choice writes; where it is not `on` one of its tags, it writes nothing. */
export type AsFoundSet = { readonly on?: readonly AsFoundTag[] } & (
  | { readonly field: string; readonly value?: string; readonly word?: string }
  | { readonly leak: LeakPlace; readonly flow: string }
  /** Open share of the duct's own section, with its range. */
  | {
      readonly leak: LeakPlace;
      readonly opening: { readonly share: number; readonly low: number; readonly high: number };
    }
  | { readonly fitting: string; readonly lossCoefficient?: string }
);

/** Something that a surveyor sees, in words, and the ranges of numbers that it stands for. */
export type AsFoundChoice = {
  readonly id: string;
  readonly group: string;
  readonly words: string;
  /** Tags that a record must have, all of them. */
  readonly needs: readonly AsFoundTag[];
  readonly sets: readonly AsFoundSet[];
  readonly source: string;
};

/** All that can be said of a part or room in words of the trade, with the values each stands for and its source. */
export const asFoundChoices = rows as unknown as readonly AsFoundChoice[];

const partTags = (part: JobPart): readonly AsFoundTag[] => {
  const flexible = named(materials, part.material ?? (part.role === 'run' ? 'flex' : 'galvanized'))?.flexible;
  return [
    'duct',
    part.role,
    part.side,
    ...(part.role === 'run' ? [`${part.side} run` as const] : []),
    flexible ? 'flex' : 'metal',
    ...(part.terminal ? ['terminal' as const] : []),
    ...(part.terminal?.filter ? ['filter' as const] : []),
  ];
};

/** Tags of the part or air handler at a path; none elsewhere. */
export const tagsAt = (job: Job, path: string): readonly AsFoundTag[] => {
  const record = valueAt(job, path);
  if (typeof record !== 'object' || record === null) return [];
  if (/^systems\/[^/]+\/airHandler$/.test(path)) {
    const system = valueAt(job, path.replace(/\/airHandler$/, '')) as NonNullable<Job['systems']>[number];
    const atGrille = system.parts.some((part) => part.terminal?.filter);
    return atGrille && system.airHandler.filter === undefined ? ['air handler'] : ['air handler', 'filter'];
  }
  return /^systems\/[^/]+\/parts\/[^/]+$/.test(path) ? partTags(record as JobPart) : [];
};

export const fits = ({ on }: AsFoundSet, tags: readonly AsFoundTag[]): boolean =>
  on === undefined || on.some((tag) => tags.includes(tag));

/** Choices that fit the part or air handler at a path (`systems/main/parts/run-2`, `systems/main/airHandler`). */
export const choicesAt = (job: Job, path: string): readonly AsFoundChoice[] => {
  const tags = tagsAt(job, path);
  if (tags.length === 0) return [];
  return asFoundChoices.filter(
    ({ needs, sets }) => needs.every((tag) => tags.includes(tag)) && sets.some((set) => fits(set, tags)),
  );
};
