import type { Mode } from '../survey/types.ts';
import type { Account, RoomStanding } from './types.ts';

/** A room that is further from its set point on a design day than it may be, and what stands in its way. */
export type RoomOff = {
  readonly room: string;
  readonly name: string;
  readonly mode: Mode;
  /** Predicted less set point, and what of it is beyond the allowed, K. */
  readonly drift_K: number;
  readonly beyond_K: number;
  /** Delivered over needed air. */
  readonly airShare: number;
  /** A system that feeds it gives all it has and does not hold its thermostat's room. */
  readonly atFullOutput: boolean;
  /** In the other season it drifts the other way in what it wants of air: more or less mends one and harms the other. */
  readonly opposed: boolean;
};

/** A drift that pulls the other way counts from half of what is allowed (own choice). */
const pulls = 0.5;

/** How far a room drifts from its set point on the design day, K; 0 where no duct owes it anything. */
export const roomDrift_K = ({ predicted_C, setPoint_C, needed_m3s }: RoomStanding): number =>
  needed_m3s > 0 ? predicted_C - setPoint_C : 0;

/** Above 0 where more air would bring a room nearer to its set point. */
const wantOfAir = (mode: Mode, drift_K: number): number => (mode === 'heating' ? -drift_K : drift_K);

/** Whether more air would bring a room nearer to its set point. */
export const wantsAir = ({ mode, drift_K }: Pick<RoomOff, 'mode' | 'drift_K'>): boolean =>
  wantOfAir(mode, drift_K) > 0;

/**
 * Rooms beyond what they may drift in the modes whose accounts are given, worst first.
 * @param allowed_K most that a room may drift in a mode, K, above 0
 */
export const roomsOff = (
  accounts: readonly Account[],
  allowed_K: (room: string, mode: Mode) => number,
): readonly RoomOff[] => {
  const off = accounts.flatMap((account) =>
    account.rooms.flatMap((standing, at): RoomOff[] => {
      const { room, name, needed_m3s, delivered_m3s } = standing;
      const { mode } = account;
      const drift_K = roomDrift_K(standing);
      const beyond_K = Math.abs(drift_K) - allowed_K(room, mode);
      if (!(beyond_K > 0)) return [];
      const wants = wantOfAir(mode, drift_K);
      return [
        {
          room,
          name,
          mode,
          drift_K,
          beyond_K,
          airShare: delivered_m3s / needed_m3s,
          atFullOutput: wants > 0 && isAtFullOutput(account, room),
          opposed: accounts.some((other) => {
            const there = wantOfAir(other.mode, roomDrift_K(other.rooms[at]!));
            return there * wants < 0 && Math.abs(there) > pulls * allowed_K(room, other.mode);
          }),
        },
      ];
    }),
  );
  return off.toSorted((a, b) => b.beyond_K - a.beyond_K);
};

const isAtFullOutput = ({ survey, systems }: Account, room: string): boolean =>
  survey.systems.some(
    ({ parts }, s) =>
      systems[s]!.short && parts.some((part) => part.side === 'supply' && part.terminal?.room === room),
  );
