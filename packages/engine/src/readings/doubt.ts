/** What may be wrong with a reading. */
export type DoubtKind =
  | 'blank'
  | 'impossible'
  | 'unlikely'
  | 'wrong unit'
  | 'wrong sign'
  | 'contradicts another'
  | 'repeated'
  | 'mixed states';

/** A doubt about a reading, in words that say what to do; the reading itself is kept. */
export type Doubt = {
  readonly kind: DoubtKind;
  /** Ids of the readings it is about, the one in question first. */
  readonly readings: readonly string[];
  /** What was read and where. */
  readonly place: string;
  readonly value: string;
  readonly expected: string;
  readonly remedy: string;
  /** All of it in a sentence or two. */
  readonly message: string;
};

/** A doubt with its message. */
export const doubt = (
  kind: DoubtKind,
  readings: readonly string[],
  place: string,
  value: string,
  expected: string,
  remedy: string,
): Doubt => ({
  kind,
  readings,
  place,
  value,
  expected,
  remedy,
  message: `${place}: ${value}; expected ${expected}. ${remedy}`,
});
