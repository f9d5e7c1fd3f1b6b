import type { Account } from '../account/types.ts';
import type { DamperRun } from './damper-runs.ts';

/**
 * Air that each register is to give, m³/s: the need of its room, shared over the room's registers as they flow with
 * every damper open, so that two registers of one room stay alike.
 */
export function registerTargets(
  { rooms }: Account,
  runs: readonly DamperRun[],
  openFlow_m3s: readonly number[],
): number[] {
  const roomFlow = new Map<string, number>();
  runs.forEach(({ room }, index) => {
    roomFlow.set(room, (roomFlow.get(room) ?? 0) + Math.max(0, openFlow_m3s[index]!));
  });
  return runs.map(({ room }, index) => {
    const need_m3s = rooms.find((one) => one.room === room)!.needed_m3s;
    const all = roomFlow.get(room)!;
    const registers = runs.filter((run) => run.room === room).length;
    return all > 0 ? (need_m3s * Math.max(0, openFlow_m3s[index]!)) / all : need_m3s / registers;
  });
}
