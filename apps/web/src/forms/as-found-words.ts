import type { AsFoundChoice } from '@airledger/job';
import { keyWords } from './forms.ts';

type AsFoundSet = AsFoundChoice['sets'][number];

/** The numbers that a choice of words writes: "leak at the boot: 20 cfm (8 to 40 cfm) at 25 Pa". */
export const asFoundRange = ({ sets }: AsFoundChoice): string =>
  [...new Set(sets.map(setWords))].filter(Boolean).join('; ');

const percent = (share: number): string => `${Math.round(share * 100)} %`;

const setWords = (set: AsFoundSet): string => {
  const where = set.on ? ` (${set.on.join(', ')})` : '';
  if ('opening' in set) {
    const { share, low, high } = set.opening;
    return `open at the ${set.leak}: ${percent(share)} of the duct (${percent(low)} to ${percent(high)})`;
  }
  if ('leak' in set) return `leak at the ${set.leak}${where}: ${set.flow} at 25 Pa`;
  if ('fitting' in set)
    return set.lossCoefficient === undefined
      ? set.fitting
      : `${set.fitting}, loss coefficient ${set.lossCoefficient}`;
  const key = keyWords(set.field.split('/').at(-1)!).toLowerCase();
  return set.value === undefined && set.word === undefined ? '' : `${key} ${set.value ?? set.word}`;
};

/** Whether a choice says that a leak is closed. */
export const seals = ({ id }: AsFoundChoice): boolean => /sealed/.test(id);
