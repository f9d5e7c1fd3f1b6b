import type { Doubt } from '@airledger/engine/readings/doubt';
import { doubtsAbout } from '@airledger/engine/readings/doubts-about';
import { type ReadReadings, readingsOf } from '@airledger/job';
import { useMemo } from 'react';
import { useTypedJob } from '../document/document.ts';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';

/** Readings of the state in view in SI, and every doubt about them as they stand. */
export const useReadings = (): (ReadReadings & { readonly doubts: readonly Doubt[] }) | undefined => {
  const job = useTypedJob();
  const survey = useBaseSurvey();
  const state = useWorkbench(({ viewed }) => viewed);
  const units = useWorkbench((workbench) => workbench.units);
  return useMemo(() => {
    if (!job || !survey) return undefined;
    const read = readingsOf(job, state, survey);
    return { ...read, doubts: [...read.doubts, ...doubtsAbout(read.readings, survey, units)] };
  }, [job, survey, state, units]);
};
