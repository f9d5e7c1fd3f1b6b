import { account, checkRules, type UnitSystem } from '@airledger/engine';
import { type Job, surveyOf } from '@airledger/job';

/**
 * The handover of a job as one HTML page: of one state, or of the one before and the one after.
 * It stands on the job as its file has it; what is only tried is not in it.
 */
export const makeHandover = async (
  job: Job,
  states: readonly [string] | readonly [before: string, after: string],
  units: UnitSystem,
): Promise<string> => {
  // The report is only loaded when one is wanted.
  const { handoverHtml } = await import('@airledger/report');
  const read = (id: string) => {
    const survey = surveyOf(job, id);
    const accounts = { heating: account(survey, 'heating'), cooling: account(survey, 'cooling') };
    return { id, survey, accounts, checks: checkRules(survey, accounts) };
  };
  const [first, second] = states;
  return handoverHtml({
    job,
    units,
    states: second === undefined ? [read(first)] : [read(first), read(second)],
  });
};
