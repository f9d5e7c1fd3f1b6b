import type { Typed } from '../typed.ts';

/** A value of the quick start: visible as assumed until somebody corrects it. */
export const assumed = (value: string, note?: string): Typed => ({
  value,
  known: 'assumed',
  ...(note !== undefined && { note }),
});
