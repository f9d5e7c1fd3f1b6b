import type { HowKnown } from '@airledger/engine';

/** A quantity as typed, alone or with how it is known. */
export type Typed =
  | string
  | number
  | { readonly value: string | number; readonly known?: HowKnown; readonly note?: string };

export const howKnownWords = ['measured', 'read off', 'estimated', 'assumed'] as const satisfies HowKnown[];

/** The text of a typed value; numbers as JavaScript writes them. */
export const typedText = (typed: Typed): string =>
  typeof typed === 'string' ? typed : typeof typed === 'number' ? String(typed) : String(typed.value);
