import type { Account, Survey } from '@airledger/engine';
import { uniqueId } from '../edit/index.ts';
import type { Job } from '../schema/job-schema.ts';
import type { Proposal } from './candidate.ts';

/** A shut room above this pressure to the hall wants a way back for its air (common practice, no source). */
const most_Pa = 3;

/** Rooms that a shut door leaves without a way back: a grille through the wall, a jump duct, or a deeper undercut. */
export const proposeReturnPaths = (survey: Survey, accounts: readonly Account[]): readonly Proposal[] => {
  const doors = survey.doors.filter(
    (door) =>
      !door.open &&
      door.between.some((room) =>
        accounts.some(({ rooms }) =>
          rooms.some(
            (standing) =>
              standing.room === room && standing.delivered_m3s > 0 && standing.pressureToHall_Pa > most_Pa,
          ),
        ),
      ),
  );
  if (doors.length === 0) return [];
  const names = doors.map(({ between }) => nameOf(survey, roomBehind(accounts, between)));
  const list = names.length <= 3 ? names.join(', ') : `${names.length} rooms`;
  const common = {
    place: 'rooms',
    where: doors.map(({ id }) => `doors/${id}`),
    work: [{ access: 'open' as const, quantity: doors.length }],
    claims: ['return-path'],
  };
  const adding = (kind: 'transfer grille' | 'jump duct', size: Record<string, string>) => (house: Job) => {
    const added: NonNullable<Job['transfers']> = [];
    for (const { id, between } of doors) {
      if (!house.doors?.some((door) => door.id === id)) continue;
      const taken = added.map((item) => item.id);
      const name = uniqueId(house, `transfer-${roomBehind(accounts, between)}`, taken);
      added.push({ id: name, kind, between: [...between], ...size });
    }
    return { ...house, transfers: [...(house.transfers ?? []), ...added] };
  };
  return [
    {
      ...common,
      repair: 'transfer-grille',
      name: `Cut transfer grilles: ${list}`,
      apply: adding('transfer grille', { face: '12 in x 8 in' }),
    },
    {
      ...common,
      repair: 'jump-duct',
      name: `Add jump ducts: ${list}`,
      apply: adding('jump duct', { diameter: '8 in' }),
    },
    {
      ...common,
      repair: 'undercut',
      name: `Undercut doors to 1.5 in: ${list}`,
      apply: (house) => ({
        ...house,
        doors: house.doors?.map((door) => {
          if (!doors.some(({ id }) => id === door.id)) return door;
          const { shutArea: _, ...rest } = door;
          return { ...rest, undercut: '1.5 in' };
        }),
      }),
    },
  ];
};

/** Of the two spaces of a door, the one that stands under pressure. */
const roomBehind = (accounts: readonly Account[], between: readonly [string, string]): string => {
  const pressure = (room: string): number =>
    Math.max(
      ...accounts.map(
        ({ rooms }) =>
          rooms.find((standing) => standing.room === room)?.pressure_Pa ?? Number.NEGATIVE_INFINITY,
      ),
    );
  return pressure(between[0]) > pressure(between[1]) ? between[0] : between[1];
};

const nameOf = (survey: Survey, room: string): string =>
  survey.rooms.find(({ id }) => id === room)?.name ?? room;
