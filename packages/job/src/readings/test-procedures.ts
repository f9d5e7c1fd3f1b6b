import type { ReadingSubject } from '@airledger/engine/readings/types';
import file from '../../data/test-procedures.json' with { type: 'json' };
import type { ReadingKind } from '../schema/reading-schema.ts';

/** A test, step by step in our own words. */
export type TestProcedure = {
  readonly id: string;
  readonly title: string;
  /** Kinds of reading that it takes. */
  readonly kinds: readonly ReadingKind[];
  /** Ids of cautions to be heeded before the first step. */
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
  readonly source: string;
};

/** What can hurt during a test. */
export type TestCaution = { readonly id: string; readonly title: string; readonly text: string };

/** Every procedure in the order of a visit. */
export const testProcedures = file.procedures as readonly TestProcedure[];

/** Cautions that procedures name. */
export const testCautions: readonly TestCaution[] = file.cautions;

/** What holds before all of them. */
export const proceduresDefer = file.defers;

/** The procedures that take a kind of reading, each with its cautions. */
export const proceduresFor = (
  kind: ReadingKind,
): readonly (TestProcedure & { readonly heed: readonly TestCaution[] })[] =>
  testProcedures
    .filter(({ kinds }) => kinds.includes(kind))
    .map((procedure) => ({
      ...procedure,
      heed: testCautions.filter(({ id }) => procedure.cautions.includes(id)),
    }));

/** What to heed of burners before any of these is read; nothing where no fan moves the pressure of the house. */
export const burnerCaution = (subjects: readonly ReadingSubject[]): TestCaution | undefined =>
  subjects.some(movesHouse) ? testCautions.find(({ id }) => id === 'combustion') : undefined;

const movesHouse = (subject: ReadingSubject): boolean =>
  subject.kind === 'pressure pan' ||
  subject.kind === 'house leakage' ||
  (subject.kind === 'duct leakage' && subject.to === 'outdoors');
