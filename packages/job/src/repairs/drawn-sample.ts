import { seededRandom } from '@airledger/engine';
import { normalFrom } from '../guidance/draw.ts';
import { inputAt, rangeValue, spreadValue } from '../guidance/uncertainty.ts';
import type { Sample } from '../survey/surveyor.ts';

/** A whole number that a text always gives (FNV-1a). */
const hashOf = (text: string): number => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
};

/**
 * One house out of what is uncertain, the same for the same seed whatever else changes: a value is drawn by its path,
 * so that two plans are compared on one and the same house. What was assumed alike in many places is off alike in all.
 */
export const drawnSample = (seed: number): Sample => {
  const normal = (key: string): number => normalFrom(seededRandom(hashOf(`${seed}/${key}`)));
  return Object.assign((path: string, range: Parameters<Sample>[1]) => rangeValue(range, normal(path)), {
    unranged: (path: string, known: Parameters<NonNullable<Sample['unranged']>>[1]): number => {
      const row = inputAt(path);
      if (!row || (known.derived && !row.derived)) return known.value;
      const field = path.slice(path.lastIndexOf('/') + 1);
      return spreadValue(row, known, normal(known.howKnown === 'assumed' ? `${field}=${known.value}` : path));
    },
  });
};
