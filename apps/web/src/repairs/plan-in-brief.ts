import { money } from './repair-words.ts';
import type { Asked, Repairs } from './repairs-store.ts';

type Now = Readonly<Record<keyof Asked, unknown>>;

/** Whether a plan was worked out from the house, the state and the weather in view. */
export const planStands = (asked: Asked | undefined, now: Now): boolean =>
  asked?.job === now.job && asked?.state === now.state && asked?.weather === now.weather;

/** The plan in the few words that the rail has room for: what it costs and saves, or what there is to do first. */
export const planInBrief = ({ status, plan, asked }: Repairs, now: Now): string => {
  if (status === 'working') return 'planning …';
  if (!plan || !asked) return 'no plan yet';
  if (!planStands(asked, now)) return 'plan again';
  const { chosen, before } = plan;
  if (chosen.repairs.length === 0) return 'nothing to do';
  const { low, high } = chosen.cost;
  const cost = `${money(low)} to ${money(high)}`;
  const { year } = chosen.standing;
  if (!before.year || !year) return cost;
  const saved = before.year.cost - year.cost;
  return `${cost}; ${saved < 0 ? 'costs' : 'saves'} ${money(Math.abs(saved))} a year`;
};
