import type { Account } from '../account/types.ts';
import type { AirElement } from '../air/types.ts';
import { partsOnlyFor } from './cures.ts';

/** Duct walls that pass heat on the way to a room, as one cause. */
export type DuctWalls = {
  readonly id: string;
  readonly what: string;
  readonly has: (element: AirElement) => boolean;
};

/** The duct walls that conduct: those of the room's own run, those of plenum, trunk and other runs, those of the return. */
export function wallsFor({ survey, air }: Account, room: string): DuctWalls[] {
  const own = partsOnlyFor(survey, [room]);
  const isOwn = ({ of, side }: AirElement) => side !== 'return' && own.has(of);
  const walls: DuctWalls[] = [
    {
      id: 'own-walls',
      what: 'heat through the walls of its run',
      has: (element) => conducts(element) && isOwn(element),
    },
    {
      id: 'trunk-walls',
      what: 'heat through the walls of plenum and trunk',
      has: (element) => conducts(element) && element.side !== 'return' && !isOwn(element),
    },
    {
      id: 'return-walls',
      what: 'heat through the walls of the return',
      has: (element) => conducts(element) && element.side === 'return',
    },
  ];
  return walls.filter(({ has }) => air.elements.some(has));
}

const conducts = ({ kind, conductance_WK, surroundings }: AirElement): boolean =>
  (conductance_WK ?? 0) > 0 && surroundings !== undefined && kind !== 'fan' && kind !== 'coil';
