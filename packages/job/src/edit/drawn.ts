import type { HowKnown, UnitSystem } from '@airledger/engine';
import type { Typed } from '../typed.ts';
import { lengthText, siOf } from './typed-text.ts';

/**
 * A value that comes from the drawing says so in its note. It follows the drawing until somebody types over it: a
 * typed value has no such note, and no drag touches it.
 */
const mark = 'drawn';
const withRises = /^drawn, with (.+) of rises$/;

/** A value measured on the drawing; `rises_m` is what a duct climbs or drops beside its line on the plan. */
export const drawn = (
  value: string,
  known: HowKnown = 'estimated',
  rises?: { readonly rises_m: number; readonly units: UnitSystem },
): Typed => ({
  value,
  known,
  note: rises && rises.rises_m > 0 ? `drawn, with ${lengthText(rises.rises_m, rises.units)} of rises` : mark,
});

const noteOf = (typed: Typed | undefined): string =>
  typeof typed === 'object' && typed.note !== undefined ? typed.note : '';

/** True while a value follows the drawing. */
export const isDrawn = (typed: Typed | undefined): boolean =>
  noteOf(typed) === mark || withRises.test(noteOf(typed));

/** Rises that a drawn length includes, m; 0 when it includes none. */
export const risesOf = (typed: Typed | undefined): number =>
  siOf(withRises.exec(noteOf(typed))?.[1], 'length') ?? 0;

/** How a drawn value is known, kept when it is measured anew. */
export const knownOf = (typed: Typed | undefined): HowKnown | undefined =>
  typeof typed === 'object' ? typed.known : undefined;
