import type { DamperSetting, FieldSheet, Mode, Survey } from '@airledger/engine';
import { type Remote, wrap } from 'comlink';
import { useEffect, useRef, useState } from 'react';
import type { Balanced, Balancer } from './balance-worker.ts';

export type BalanceState = {
  readonly found?: Balanced;
  /** The house has changed since `found`, and its answer is on its way. */
  readonly working: boolean;
  readonly failure?: string;
};

/** A pause after an edit before a new answer is asked for, so that a moved handle asks once. */
const pause_ms = 150;

/** The house in hand balanced, anew after every change; an answer that is no longer wanted is given up. */
export const useBalance = (survey: Survey | undefined, newDampers: boolean): BalanceState => {
  const [state, setState] = useState<BalanceState>({ working: true });
  useEffect(() => {
    if (!survey) return;
    let worker: Worker | undefined;
    setState(({ found }) => ({ found, working: true }));
    const timer = setTimeout(async () => {
      worker = new Worker(new URL('./balance-worker.ts', import.meta.url), { type: 'module' });
      try {
        setState({ found: await wrap<Balancer>(worker).balance(survey, newDampers), working: false });
      } catch (error) {
        setState({ working: false, failure: error instanceof Error ? error.message : String(error) });
      }
      worker.terminate();
    }, pause_ms);
    return () => {
      clearTimeout(timer);
      worker?.terminate();
    };
  }, [survey, newDampers]);
  return state;
};

/** The field sheets of some settings; undefined until they are worked out. */
export const useFieldSheets = (
  survey: Survey,
  mode: Mode,
  settings: readonly DamperSetting[],
): readonly FieldSheet[] | undefined => {
  const [sheets, setSheets] = useState<readonly FieldSheet[]>();
  const wanted = useRef(settings);
  useEffect(() => {
    wanted.current = settings;
    setSheets(undefined);
    const worker = new Worker(new URL('./balance-worker.ts', import.meta.url), { type: 'module' });
    const balancer: Remote<Balancer> = wrap(worker);
    balancer.sheets(survey, mode, settings).then((found) => {
      if (wanted.current === settings) setSheets(found);
      worker.terminate();
    });
    return () => worker.terminate();
  }, [survey, mode, settings]);
  return sheets;
};
