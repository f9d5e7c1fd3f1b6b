import { formatQuantity, type UnitSystem } from '@airledger/engine';
import type { LeakageVerdict } from '@airledger/engine/leakage-test/types';

/** "218 cfm at 25 Pa; at most 62 cfm (4.0 cfm/100 ft² of floor, R403.3.4)". */
export const verdictWords = (verdict: LeakageVerdict, units: UnitSystem): string => {
  const { judged, allowed_m3s, per, limit, clause } = verdict;
  const measure =
    per === 'fan flow'
      ? `${formatQuantity(limit, 'ratio', units, 1)} of fan flow`
      : `${formatQuantity(limit, 'airflowPerArea', units, 1)} of floor`;
  const at = judged ? `${formatQuantity(judged.flow25_m3s, 'airflow', units)} at 25 Pa; ` : '';
  return `${at}at most ${formatQuantity(allowed_m3s, 'airflow', units)} (${measure}, ${clause}).`;
};

/** How surely the true leakage is within the limit. */
export const sureWords = ({ passes }: NonNullable<LeakageVerdict['judged']>): string => {
  if (passes > 0.995) return 'It is all but sure that the true leakage is within it.';
  if (passes < 0.005) return 'It is all but sure that the true leakage is above it.';
  return `The true leakage is within it with ${Math.round(passes * 100)} % probability.`;
};
