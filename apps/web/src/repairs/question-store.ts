import { usualTolerance_K } from '@airledger/engine/season/comfort';
import type { Goal } from '@airledger/job';
import { create } from 'zustand';

/** What the next plan is asked for, as the form has it; it stays while other work areas are looked at. */
export type Question = {
  readonly kind: Goal['kind'];
  /** One room, or all of them when empty. */
  readonly room: string;
  readonly tolerance_K: number;
  readonly budget: number;
};

export const useQuestion = create<Question>(() => ({
  kind: 'rooms',
  room: '',
  tolerance_K: usualTolerance_K,
  budget: 3000,
}));

export const setQuestion = (part: Partial<Question>): void => useQuestion.setState(part);
