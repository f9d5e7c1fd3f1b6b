import { type Account, account, type Survey, usedModes } from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { proposeAirHandlerWork } from './air-handler-work.ts';
import { proposeBalancing } from './balance-runs.ts';
import { type Candidate, priced } from './candidate.ts';
import { catalogueOf, phases } from './catalogue.ts';
import { proposeCavities } from './cavities.ts';
import { proposeDuctsInside } from './ducts-inside.ts';
import { proposeEnlarging } from './enlarge-runs.ts';
import { proposeInsulation } from './insulate-ducts.ts';
import { proposeReturnPaths } from './return-paths.ts';
import { proposeFlex } from './rework-flex.ts';
import { proposeSealing } from './seal-ducts.ts';

/** Accounts of both design days. */
export type BothAccounts = { readonly heating: Account; readonly cooling: Account };

export const accountsOf = (survey: Survey, previous?: BothAccounts): BothAccounts => ({
  heating: account(survey, 'heating', previous?.heating),
  cooling: account(survey, 'cooling', previous?.cooling),
});

/**
 * Repairs that make sense in one state of a house, in the order in which they would be done: leaky parts are sealed,
 * thin insulation in buffer zones made thicker, slack flex pulled, and so on, by run where a room is short of air and
 * by system otherwise. Costs are of the job's own prices where it has them.
 * `job` must have passed `readJob`; throws on a state that is not there.
 */
export const candidatesOf = (
  job: Job,
  stateId: string,
  accounts: BothAccounts = accountsOf(surveyOf(job, stateId)),
): readonly Candidate[] => {
  const { survey } = accounts.heating;
  const used = usedModes(survey).map((mode) => accounts[mode]);
  const proposals = [
    ...proposeDuctsInside(survey),
    ...proposeCavities(survey),
    ...proposeFlex(survey, used),
    ...proposeEnlarging(survey, used),
    ...proposeReturnPaths(survey, used),
    ...proposeSealing(survey),
    ...proposeInsulation(survey),
    ...proposeAirHandlerWork(survey, used),
    ...proposeBalancing(survey, used),
  ];
  return priced(proposals, catalogueOf(job)).toSorted(
    (a, b) => phases.indexOf(a.repair.phase) - phases.indexOf(b.repair.phase),
  );
};
