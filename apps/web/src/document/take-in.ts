import type { Job } from '@airledger/job';
import { mergeVersions } from '../keeping/merge-versions.ts';
import { useWorkbench } from '../state/store.ts';
import { standing } from './standing.ts';
import { surveyStates } from './survey-states.ts';

/** Takes what others made of the job, `to`, where `from` was in hand, into what is in hand by now. */
export const takeIn = (from: Job, to: Job): void => {
  const { typed, job: opened, gesture } = useWorkbench.getState();
  if (!typed || !opened) return;
  const over = (mine: Job) => (mine === from ? to : mergeVersions(from, mine, to).job);
  const next = over(typed);
  const before = gesture && over(gesture.before);
  useWorkbench.setState({
    ...standing(next),
    typed: next,
    job: surveyStates(before ?? next, { job: gesture?.before ?? typed, opened }),
    ...(before && { gesture: { ...gesture, before } }),
  });
};
