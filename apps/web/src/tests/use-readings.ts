import type { Survey } from '@airledger/engine';
import type { Doubt } from '@airledger/engine/readings/doubt';
import { doubtsAbout } from '@airledger/engine/readings/doubts-about';
import { type Job, type ReadReadings, readingsOf } from '@airledger/job';
import { useTypedJob } from '../document/document.ts';
import { useBaseSurvey } from '../state/select.ts';
import { type UnitSystem, useWorkbench } from '../state/store.ts';

type Read = ReadReadings & { readonly doubts: readonly Doubt[] };

type Asked = {
  readonly readings: Job['readings'];
  readonly survey: Survey;
  readonly units: UnitSystem;
  readonly read: Read;
};

/** What was read last: every part of the area asks for the same, and findings go by its identity. */
let last: Asked | undefined;

const readOnce = (job: Job, survey: Survey, units: UnitSystem): Read => {
  const { readings } = job;
  if (last?.readings === readings && last?.survey === survey && last.units === units) return last.read;
  const own = readingsOf(job, survey.state, survey);
  const read = { ...own, doubts: [...own.doubts, ...doubtsAbout(own.readings, survey, units)] };
  last = { readings, survey, units, read };
  return read;
};

/** Readings of the state in view in SI, and every doubt about them as they stand. */
export const useReadings = (): Read | undefined => {
  const job = useTypedJob();
  const survey = useBaseSurvey();
  const units = useWorkbench((state) => state.units);
  return job && survey && readOnce(job, survey, units);
};
