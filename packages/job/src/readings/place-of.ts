import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import type { ReadingKindRow } from './reading-tables.ts';

type Named = { readonly id: string; readonly name?: string };

/** What readings of a sort can be taken at, in the order of the job. */
export const placesFor = (
  job: Job,
  state: string,
  of: NonNullable<ReadingKindRow['of']>,
): readonly Named[] => {
  const house = applyState(job, state);
  const parts = (house.systems ?? []).flatMap((system) => system.parts);
  switch (of) {
    case 'system':
      return house.systems ?? [];
    case 'part':
      return parts;
    case 'terminal':
      return parts.flatMap(({ terminal }) => terminal ?? []);
    case 'room':
      return house.rooms;
    case 'space':
      return [...house.rooms, ...(house.zones ?? [])];
  }
};

/**
 * Id of the place that somebody names by id or name, without regard to case; of a register also by its room, where
 * that has only one. The text itself when there is no such place.
 */
export const placeOf = (
  job: Job,
  state: string,
  of: NonNullable<ReadingKindRow['of']>,
  text: string,
): string => {
  const wanted = text.trim().toLowerCase();
  const called = ({ id, name }: Named) => id === wanted || name?.toLowerCase() === wanted;
  const own = placesFor(job, state, of).find(called);
  if (own) return own.id;
  if (of !== 'terminal') return text;
  const room = placesFor(job, state, 'room').find(called);
  const inRoom = (applyState(job, state).systems ?? [])
    .flatMap(({ parts }) => parts)
    .filter(({ side, terminal }) => side === 'supply' && terminal?.room === room?.id);
  return room && inRoom.length === 1 ? inRoom[0]!.terminal!.id : text;
};
