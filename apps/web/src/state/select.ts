import type { Account, Survey } from '@airledger/engine';
import type { Reading } from '../worker/read-survey.ts';
import { useWorkbench } from './store.ts';

/** The reading of the state in view. */
export const useReading = (): Reading | undefined => useWorkbench((state) => state.readings[state.viewed]);

/** The account in view: state and design day. */
export const useAccount = (): Account | undefined =>
  useWorkbench((state) => state.readings[state.viewed]?.accounts[state.mode]);

/** The survey in view as it was typed, before anything is tried. */
export const useBaseSurvey = (): Survey | undefined =>
  useWorkbench((state) => state.job?.surveys[state.viewed]);

/** Name of the state in view. */
export const useStateName = (): string =>
  useWorkbench((state) => state.job?.states.find(({ id }) => id === state.viewed)?.name ?? '');
