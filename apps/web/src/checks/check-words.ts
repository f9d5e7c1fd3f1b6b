import type { Check } from '@airledger/engine';
import { checkFigure } from '@airledger/report/check-words';
import type { Format } from '../figure/format.ts';

export const results: Record<Check['result'], { mark: string; words: string }> = {
  fail: { mark: '✕', words: 'fails' },
  'cannot tell': { mark: '?', words: 'cannot tell' },
  pass: { mark: '✓', words: 'holds' },
  exempt: { mark: '–', words: 'exempt' },
};

/** "14.6 %," and "at most 4 %"; the verdict alone where no figure stands against a limit. */
export const standingPieces = (check: Check, { units }: Format): readonly string[] => {
  if (check.sense === 'yes or no' || check.quantity === 'none' || check.limit === undefined)
    return [results[check.result].words];
  const value = check.value === undefined ? 'not known' : checkFigure(check, 'value', units);
  return [`${value},`, `${check.sense} ${checkFigure(check, 'limit', units)}`].map((piece) =>
    piece.replace(/(?<!\w)-(?=\d)/g, '−'),
  );
};

/** "14.6 %, at most 4 %" */
export const checkStanding = (check: Check, format: Format): string =>
  standingPieces(check, format).join(' ');

/** "over by 10.5 %", "short by 3.8 R", "2 R to spare" */
export const checkMargin = (check: Check, { units }: Format): string => {
  if (check.margin === undefined) return '';
  const size = checkFigure(check, 'margin', units).replace(/^[−+]/, '');
  if (check.margin >= 0) return `${size} to spare`;
  return `${check.sense === 'at least' ? 'short' : 'over'} by ${size}`;
};
