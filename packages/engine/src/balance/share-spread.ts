import type { Account } from '../account/types.ts';
import type { ShareSpread } from './types.ts';

/** Air that a room gets over the air it needs; 1 for a room that needs none. */
export const shareOf = ({ rooms }: Account, room: string): number => {
  const { delivered_m3s, needed_m3s } = rooms.find((one) => one.room === room)!;
  return needed_m3s > 0 ? delivered_m3s / needed_m3s : 1;
};

/** Least and greatest share of need among the rooms that have a register. */
export function shareSpread(account: Account): ShareSpread {
  const served = new Set(
    account.survey.systems.flatMap(({ parts }) =>
      parts.flatMap(({ side, terminal }) => (side === 'supply' && terminal ? [terminal.room] : [])),
    ),
  );
  const shares = [...served].map((room) => shareOf(account, room));
  return { least: Math.min(...shares), most: Math.max(...shares) };
}
