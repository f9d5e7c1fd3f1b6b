import { money } from './repair-words.ts';
import type { Asked, Repairs } from './repairs-store.ts';

/** The plan in the few words that the rail has room for: what it costs and saves, or what there is to do first. */
export const planInBrief = (
  { status, plan, asked }: Repairs,
  now: Readonly<Record<keyof Asked, unknown>>,
): string => {
  if (status === 'working') return 'planning …';
  if (!plan || !asked) return 'no plan yet';
  if (asked.job !== now.job || asked.state !== now.state || asked.weather !== now.weather)
    return 'plan again';
  const { chosen, before } = plan;
  if (chosen.repairs.length === 0) return 'nothing to do';
  const { low, high } = chosen.cost;
  const cost = `${money(low)} to ${money(high)}`;
  const { year } = chosen.standing;
  if (!before.year || !year) return cost;
  const saved = before.year.cost - year.cost;
  return `${cost}; ${saved < 0 ? 'costs' : 'saves'} ${money(Math.abs(saved))} a year`;
};
