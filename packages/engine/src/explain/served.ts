import type { Account, RoomStanding } from '../account/types.ts';
import { registerHeat } from './register-heat.ts';
import type { Service } from './types.ts';

/** What every room needs to hold its set point, in the order of the survey: m³/s of air, W of heat (in cooling: what is to be taken out). */
export const needed = ({ rooms }: Account, of: Service): readonly number[] =>
  rooms.map((standing) => (of === 'air' ? standing.needed_m3s : neededHeat_W(standing)));

/** What every room gets, in the order of the survey: m³/s of air while the fan runs, W of heat averaged over the design hour as the house floats. */
export const delivered = (account: Account, of: Service): readonly number[] =>
  of === 'air'
    ? account.rooms.map(({ delivered_m3s }) => delivered_m3s)
    : [...registerHeat(account, [])(account.air)[0]!];

/** Load at the set point with what running ducts add to it; outdoor air that comes through the ducts is in what they bring. */
const neededHeat_W = ({ load_W, forcedLoad_W, losses }: RoomStanding): number =>
  load_W +
  forcedLoad_W -
  losses.reduce((sum, { cause, sensible_W }) => sum + (cause === 'ventilation' ? sensible_W : 0), 0);
