import type { Season, Survey } from '@airledger/engine';
import { wrap } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import type { SeasonRunner } from './season-worker.ts';

export type SeasonState = {
  readonly found?: Season;
  readonly working: boolean;
  readonly failure?: string;
};

/** A pause after an edit before a new year is asked for, so that a moved handle asks once. */
const pause_ms = 200;

/** The year of the house in hand, anew after every change; `stop` gives the one that is on its way up. */
export const useSeason = (
  survey: Survey | undefined,
  weather: string | undefined,
): SeasonState & { readonly stop: () => void } => {
  const [state, setState] = useState<SeasonState>({ working: true });
  const giveUp = useRef(() => {});
  useEffect(() => {
    if (!survey) return;
    let worker: Worker | undefined;
    setState(({ found }) => ({ found, working: true }));
    const timer = setTimeout(async () => {
      worker = new Worker(new URL('./season-worker.ts', import.meta.url), { type: 'module' });
      try {
        setState({ found: await wrap<SeasonRunner>(worker).season(survey, weather), working: false });
      } catch (error) {
        setState({ working: false, failure: error instanceof Error ? error.message : String(error) });
      }
      worker.terminate();
    }, pause_ms);
    giveUp.current = () => {
      clearTimeout(timer);
      worker?.terminate();
    };
    return () => giveUp.current();
  }, [survey, weather]);
  const stop = () => {
    giveUp.current();
    setState(({ found }) => ({ found, working: false }));
  };
  return { ...state, stop };
};
