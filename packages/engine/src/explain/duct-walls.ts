import type { Account } from '../account/types.ts';
import type { AirElement } from '../air/types.ts';
import { partsOnlyFor, wayTo } from './cures.ts';
import type { RoomGroup } from './types.ts';

/** Duct walls that pass heat on the way to rooms, as one cause. */
export type DuctWalls = {
  readonly id: string;
  readonly what: string;
  readonly has: (element: AirElement) => boolean;
};

/** The duct walls that conduct: those of the room's own run, those of plenum, trunk and other runs, those of the return. */
export const wallsFor = (account: Account, room: string): DuctWalls[] =>
  conductingWalls(account, [{ id: 'own-walls', what: 'heat through the walls of its run', rooms: [room] }]);

/** The same between two groups of rooms: on the way to either alone, then what both share. */
export const wallsBetween = (account: Account, one: RoomGroup, other: RoomGroup): DuctWalls[] =>
  conductingWalls(
    account,
    [one, other].map(({ name, rooms }) => ({
      id: `walls-${wayTo(rooms)}`,
      what: `heat through the duct walls on the way to ${name}`,
      rooms,
    })),
  );

function conductingWalls(
  { survey, air }: Account,
  groups: readonly { readonly id: string; readonly what: string; readonly rooms: readonly string[] }[],
): DuctWalls[] {
  const own = groups.map(({ id, what, rooms }) => ({ id, what, parts: partsOnlyFor(survey, rooms) }));
  const isOwn = ({ of }: AirElement) => own.some(({ parts }) => parts.has(of));
  const walls: DuctWalls[] = [
    ...own.map(({ id, what, parts }) => ({
      id,
      what,
      has: (element: AirElement) => isSupply(element) && parts.has(element.of),
    })),
    {
      id: 'trunk-walls',
      what: 'heat through the walls of plenum and trunk',
      has: (element) => isSupply(element) && !isOwn(element),
    },
    {
      id: 'return-walls',
      what: 'heat through the walls of the return',
      has: (element) => conducts(element) && element.side === 'return',
    },
  ];
  return walls.filter(({ has }) => air.elements.some(has));
}

const isSupply = (element: AirElement): boolean => conducts(element) && element.side !== 'return';

const conducts = ({ kind, conductance_WK, surroundings }: AirElement): boolean =>
  (conductance_WK ?? 0) > 0 && surroundings !== undefined && kind !== 'fan' && kind !== 'coil';
