import type { Account } from '../account/types.ts';
import { leastOpen } from './equal-shares.ts';
import { shareOf } from './share-spread.ts';
import type { BalanceObstacle, DamperSetting } from './types.ts';

/** Air within this of the need counts as delivered (common practice, no source: balancing reports allow ±10 %). */
export const allowedDeparture = 0.1;

/** What keeps dampers alone from bringing every room its air, with the settings as they are in this account. */
export function obstaclesIn(account: Account, settings: readonly DamperSetting[]): BalanceObstacle[] {
  const found: BalanceObstacle[] = [];
  for (const { system, terminal, room, part, position } of settings) {
    const place = { system, terminal, room, value: shareOf(account, room) };
    if (part === undefined && place.value > 1 + allowedDeparture) found.push({ kind: 'no damper', ...place });
    else if (position !== undefined && position <= leastOpen + 1e-9)
      found.push({ kind: 'nearly shut', ...place });
  }
  for (const room of new Set(settings.map((setting) => setting.room))) {
    const value = shareOf(account, room);
    const { system } = settings.find((setting) => setting.room === room)!;
    if (value < 1 - allowedDeparture) found.push({ kind: 'short of air', system, room, value });
  }
  for (const { system, externalStatic_Pa, ratedExternalStatic_Pa } of account.systems)
    if (externalStatic_Pa > ratedExternalStatic_Pa)
      found.push({ kind: 'static above rating', system, value: externalStatic_Pa / ratedExternalStatic_Pa });
  return found;
}
