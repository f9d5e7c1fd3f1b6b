import type { Account } from '../account/types.ts';
import type { RoomGroup } from './types.ts';

/** Two groups of rooms of which the first gets more of the air that it needs than the second. */
export type UnevenGroups = {
  readonly kind: 'rooms' | 'storeys' | 'systems';
  readonly better: RoomGroup;
  readonly worse: RoomGroup;
};

/**
 * Where a house is most uneven: its best and its worst served room, then storey, then system (each thermostat's zone),
 * as far as it has two that need air. Nothing for a kind whose groups all get the same.
 */
export function unevenGroups({ survey, rooms, air }: Account): UnevenGroups[] {
  const standing = new Map(rooms.map((room) => [room.room, room]));
  const gathered = (groupsOf: (room: string) => readonly string[], ids: readonly string[]): RoomGroup[] =>
    ids.map((name) => ({
      name,
      rooms: survey.rooms.flatMap(({ id }) => (groupsOf(id).includes(name) ? [id] : [])),
    }));
  const storeyName = (storey: number) => `storey ${storey}`;
  const storeyOf = new Map(survey.rooms.map(({ id, storey }) => [id, storeyName(storey)]));
  const storeys = [...new Set(survey.rooms.map(({ storey }) => storey))].sort((a, b) => a - b);
  const systemsOf = new Map<string, Set<string>>();
  for (const { name, parts } of survey.systems)
    for (const { side, terminal } of parts)
      if (side === 'supply' && terminal)
        systemsOf.set(terminal.room, (systemsOf.get(terminal.room) ?? new Set()).add(name));
  const served = new Set(
    air.elements.flatMap(({ kind, side, to }) =>
      kind === 'terminal' && side === 'supply' ? [air.nodes[to]!.id] : [],
    ),
  );
  const kinds: readonly { readonly kind: UnevenGroups['kind']; readonly groups: readonly RoomGroup[] }[] = [
    {
      kind: 'rooms',
      groups: rooms.filter(({ room }) => served.has(room)).map(({ room, name }) => ({ name, rooms: [room] })),
    },
    { kind: 'storeys', groups: gathered((id) => [storeyOf.get(id)!], storeys.map(storeyName)) },
    {
      kind: 'systems',
      // A room that two systems serve belongs to neither alone.
      groups: gathered(
        (id) => (systemsOf.get(id)?.size === 1 ? [...systemsOf.get(id)!] : []),
        survey.systems.map(({ name }) => name),
      ),
    },
  ];
  return kinds.flatMap(({ kind, groups }) => {
    const shares = groups.flatMap((group) => {
      const sum = (key: 'needed_m3s' | 'delivered_m3s') =>
        group.rooms.reduce((total, room) => total + standing.get(room)![key], 0);
      return sum('needed_m3s') > 0 ? [{ group, share: sum('delivered_m3s') / sum('needed_m3s') }] : [];
    });
    const ordered = shares.toSorted((a, b) => b.share - a.share);
    const [better, worse] = [ordered[0], ordered.at(-1)];
    return better && worse && better.share > worse.share
      ? [{ kind, better: better.group, worse: worse.group }]
      : [];
  });
}
