import { describeDiff, takeBack } from '@airledger/job';
import { useWorkbench } from '../state/store.ts';
import { type EditResult, editTyped, endGesture, refusal } from './document.ts';

/** Takes one earlier change back and keeps all later ones; refused where a later one stands on it. */
export const takeBackAlone = (index: number): EditResult => {
  endGesture();
  const { typed, history } = useWorkbench.getState();
  const entry = history[index];
  if (!typed || !entry) return refusal('This change is not in the history.');
  const result = takeBack(typed, history, index);
  if ('job' in result) return editTyped(`Taken back: ${entry.what}`, () => result.job);
  const places = result.clashes.map(
    ({ path, found }) => describeDiff([{ path, to: found }], typed)[0] ?? path,
  );
  const later = [...new Set(result.clashes.flatMap(({ by }) => by.map(({ what }) => `"${what}"`)))];
  return refusal(
    later.length > 0
      ? `"${entry.what}" cannot be taken back alone: ${later.join(', ')} changed the same since. Take that back first.`
      : `"${entry.what}" cannot be taken back: the place has changed since (${places.join('; ')}).`,
  );
};
