import { type Dimension, formatQuantity } from '@airledger/engine';
import { valueAt } from '@airledger/job';
import { useState } from 'react';
import { useResolvedJob } from '../document/document.ts';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { editValues, errorAt } from './edit-values.ts';

/** One field of the job in hand: what stands there, what is wrong with what was typed last, and how to type it anew. */
export const useEditedField = (path: string, label: string) => {
  const job = useResolvedJob();
  const value = valueAt(job, path);
  const [fault, setFault] = useState<{ readonly of: unknown; readonly words: string }>();
  const commit = (typed: unknown): boolean => {
    const result = editValues(label, [{ path, value: typed }]);
    setFault(result.ok ? undefined : { of: value, words: errorAt(result.errors, path) });
    return result.ok;
  };
  // A fault is over when the value changes by another way, as by undo.
  const problem = fault?.of === value ? fault?.words : undefined;
  return { job, value, problem, clear: () => setFault(undefined), commit };
};

/** What the survey knows of a value: how it is read, its default with source, its range. */
export const useFact = (path: string) => useBaseSurvey()?.facts[path];

/** An SI value in words, with as many decimals as it takes to tell it from nothing. */
export const useSmallFormat = () => {
  const units = useWorkbench((state) => state.units);
  return (si: number, dimension: Dimension): string => {
    const usual = formatQuantity(si, dimension, units);
    return si !== 0 && Math.abs(si) < 0.1 && !/[1-9]/.test(usual)
      ? formatQuantity(si, dimension, units, 4)
      : usual;
  };
};
