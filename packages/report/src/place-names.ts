import type { Survey } from '@airledger/engine';

/** What a place of the ledger is. */
export type PlaceKind = 'air handler' | 'part' | 'room' | 'zone' | 'surroundings';
export type Place = { readonly id: string; readonly name: string; readonly kind: PlaceKind };

/** Every place of a house that keeps a balance, in the order in which air meets them. */
export const placesOf = (survey: Survey): readonly Place[] => [
  ...survey.systems.map(
    ({ airHandler, name }): Place => ({
      id: airHandler.id,
      name: survey.systems.length > 1 ? `Air handler, ${name}` : 'Air handler',
      kind: 'air handler',
    }),
  ),
  ...survey.systems.flatMap(({ parts }) => parts.map(({ id, name }): Place => ({ id, name, kind: 'part' }))),
  ...survey.rooms.map(({ id, name }): Place => ({ id, name, kind: 'room' })),
  ...survey.zones.map(({ id, name }): Place => ({ id, name, kind: 'zone' })),
];

/** Names of places and systems by id; an id that has none (outdoors, sun) is its own name. */
export const nameOf = (survey: Survey): ((id: string) => string) => {
  const names = new Map(placesOf(survey).map(({ id, name }) => [id, name]));
  for (const { id, name } of survey.systems) names.set(id, name);
  return (id) => names.get(id) ?? id;
};
