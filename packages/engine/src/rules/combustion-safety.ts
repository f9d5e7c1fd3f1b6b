import type { Account } from '../account/types.ts';
import type { Survey } from '../survey/types.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atLeast, undecided } from './verdict.ts';

/**
 * A caution, never a clearance: with a combustion appliance inside, a house that the account finds depressurised
 * may pull flue gas in. It can fail or stay open; only a licensed person's test can clear it.
 */
export function combustionSafety(survey: Survey, accounts: readonly Account[]): readonly Check[] {
  if (!survey.house.combustionInside) return [];
  const rule = tradeLimit('depressurisation');
  const lowest = Math.min(...accounts.map(({ house }) => house.pressureToOutdoors_Pa));
  const verdict = atLeast(lowest, rule.least!);
  return [
    {
      ...(verdict.result === 'pass' ? undecided(verdict) : verdict),
      id: 'safety-depressurisation',
      group: 'safety',
      title: rule.title,
      subject: 'house',
      quantity: 'pressure',
      clause: 'Combustion appliances inside the house',
      source: rule.source,
      evidence:
        'Computed from the survey; exhaust fans that it does not list lower the pressure further. Only a worst-case draft test by a licensed person can clear it.',
      remedy:
        'Before tightening or changing ducts have a licensed person test draft and spillage, and test again afterwards.',
    },
  ];
}
