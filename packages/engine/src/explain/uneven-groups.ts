import type { Account } from '../account/types.ts';
import { delivered, needed } from './served.ts';
import type { RoomGroup, Service } from './types.ts';

/** Two groups of rooms, of one kind, of which the first gets more of what it needs than the second. */
export type UnevenGroups = {
  readonly kind: 'rooms' | 'storeys' | 'systems';
  readonly of: Service;
  readonly better: RoomGroup;
  readonly worse: RoomGroup;
};

/** Groups that need less than this part of what one of their kind needs on average are not weighed; our choice. */
const leastPart = 0.2;

/**
 * Where a house is most uneven, in air and in heat: its best and its worst served room, then storey, then system (each
 * thermostat's zone), as far as it has two that need any. Nothing for a kind whose groups all get the same share, which
 * is that of `explainImbalance`. A group that needs next to nothing gets many times that, which tells little: it is left
 * out.
 */
export function unevenGroups(account: Account): UnevenGroups[] {
  const { survey, rooms, air } = account;
  const services = (['air', 'heat'] as const).map((of) => ({
    of,
    needs: needed(account, of),
    gets: delivered(account, of),
  }));
  const index = new Map(rooms.map(({ room }, r) => [room, r]));
  const gathered = (name: string, has: (room: string) => boolean): RoomGroup => ({
    name,
    rooms: survey.rooms.flatMap(({ id }) => (has(id) ? [id] : [])),
  });
  const storeyOf = new Map(survey.rooms.map(({ id, storey }) => [id, storey]));
  const storeys = [...new Set(survey.rooms.map(({ storey }) => storey))].sort((a, b) => a - b);
  const systemsOf = new Map<string, Set<string>>();
  for (const { id, parts } of survey.systems)
    for (const { side, terminal } of parts)
      if (side === 'supply' && terminal)
        systemsOf.set(terminal.room, (systemsOf.get(terminal.room) ?? new Set()).add(id));
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
    {
      kind: 'storeys',
      groups: storeys.map((storey) => gathered(`storey ${storey}`, (room) => storeyOf.get(room) === storey)),
    },
    {
      kind: 'systems',
      // A room that two systems serve belongs to neither alone.
      groups: survey.systems.map(({ id, name }) =>
        gathered(name, (room) => systemsOf.get(room)?.size === 1 && systemsOf.get(room)!.has(id)),
      ),
    },
  ];
  return kinds.flatMap(({ kind, groups }) =>
    services.flatMap(({ of, needs, gets }): UnevenGroups[] => {
      const shares = groups.map((group) => {
        const sum = (values: readonly number[]) =>
          group.rooms.reduce((total, room) => total + values[index.get(room)!]!, 0);
        return { group, need: sum(needs), share: sum(gets) / sum(needs) };
      });
      const least = (leastPart * shares.reduce((sum, { need }) => sum + need, 0)) / shares.length;
      const ordered = shares
        .filter(({ need }) => need > Math.max(0, least))
        .toSorted((a, b) => b.share - a.share);
      const [better, worse] = [ordered[0], ordered.at(-1)];
      return better && worse && better.share > worse.share
        ? [{ kind, of, better: better.group, worse: worse.group }]
        : [];
    }),
  );
}
