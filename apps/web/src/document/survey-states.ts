import { type Job, stateIds, surveyOf } from '@airledger/job';
import type { OpenedJob } from '../worker/open-job.ts';

/** A job beside what the page shows of it. */
type Shown = { readonly job: Job; readonly opened: OpenedJob };

/**
 * A job's states in order, each as a survey. Surveys of states that did not change since `before` are taken over, so
 * that nothing is solved anew without need. Throws where a text cannot be read as a quantity.
 */
export const surveyStates = (job: Job, before?: Shown): OpenedJob => {
  const states = stateIds(job).map((id, i) => ({
    id,
    name: job.states?.[i]?.name ?? id.replaceAll('-', ' '),
  }));
  const surveys = Object.fromEntries(
    states.map(({ id }, position) => {
      const known = before?.opened.surveys[id];
      return [id, known && sameUpTo(job, before.job, position) ? known : surveyOf(job, id)];
    }),
  );
  return { name: job.name, states, surveys };
};

/** Whether two jobs are one house up to a state: edits copy only the branches that they change. */
const sameUpTo = (a: Job, b: Job, position: number): boolean => {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Job>;
  keys.delete('states');
  if ([...keys].some((key) => a[key] !== b[key])) return false;
  for (let i = 0; i <= position; i++) {
    const [mine, theirs] = [a.states?.[i], b.states?.[i]];
    if (mine?.id !== theirs?.id || mine?.changes !== theirs?.changes) return false;
  }
  return true;
};
