import { useMemo } from 'react';
import { useWorkbench } from '../state/store.ts';
import { type Format, formatIn } from './format.ts';

/** The page's way of writing quantities, in the units of the day. */
export const useFormat = (): Format => {
  const units = useWorkbench((state) => state.units);
  return useMemo(() => formatIn(units), [units]);
};
