import type { Account } from '@airledger/engine';
import { placeLedger } from './place-ledger.ts';

/** One supply register: what flows, and what it should bring of its room's need; m³/s. */
export type RegisterFlow = {
  readonly part: string;
  readonly register: string;
  readonly room: string;
  readonly flow_m3s: number;
  readonly aim_m3s: number;
};

/**
 * Every supply register of a house. A room with several shares its need over them as its air divides already,
 * evenly when none flows.
 */
export const registerFlows = (account: Account): readonly RegisterFlow[] => {
  const registers = account.survey.systems.flatMap(({ parts }) =>
    parts.flatMap(({ id, name, side, terminal }) =>
      side === 'supply' && terminal ? [{ part: id, register: name, room: terminal.room }] : [],
    ),
  );
  return account.rooms.flatMap(({ room, needed_m3s }) => {
    const supplies = placeLedger(account, room).entries.filter(({ line }) => line.cause === 'supply air');
    const own = registers
      .filter((register) => register.room === room)
      .map((register) => ({
        ...register,
        flow_m3s: supplies
          .filter(({ other }) => other === register.part)
          .reduce((sum, { air_m3s }) => sum + air_m3s, 0),
      }));
    const total = own.reduce((sum, { flow_m3s }) => sum + flow_m3s, 0);
    return own.map((register) => ({
      ...register,
      aim_m3s: needed_m3s * (total > 0 ? register.flow_m3s / total : 1 / own.length),
    }));
  });
};
