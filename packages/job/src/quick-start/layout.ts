import { type PlanPoint, toSi } from '@airledger/engine';
import type { JobRoom } from '../schema/job-schema.ts';

export type LaidRoom = {
  readonly name: string;
  readonly use: NonNullable<JobRoom['use']>;
  readonly storey: number;
  readonly corner_m: PlanPoint;
  readonly width_m: number;
  readonly depth_m: number;
  /** Side of the hall that it lies on; the hall itself lies in the middle. */
  readonly side: 'west' | 'south' | 'north' | 'hall';
};

export type Layout = {
  readonly width_m: number;
  readonly depth_m: number;
  /** Height of the hall's middle line on the plan. */
  readonly axis_m: number;
  readonly rooms: readonly LaidRoom[];
};

type Wanted = { readonly name: string; readonly use: LaidRoom['use']; readonly weight: number };

/** Rooms in the order in which a house comes to have them, with their share of floor relative to a bedroom's. */
const wanted: readonly Wanted[] = [
  { name: 'Living', use: 'living', weight: 1.9 },
  { name: 'Kitchen', use: 'kitchen', weight: 1.1 },
  { name: 'Main bedroom', use: 'bedroom', weight: 1.3 },
  { name: 'Bath', use: 'bath', weight: 0.5 },
  { name: 'Bedroom 2', use: 'bedroom', weight: 1 },
  { name: 'Bedroom 3', use: 'bedroom', weight: 1 },
  { name: 'Dining', use: 'living', weight: 0.9 },
  { name: 'Bath 2', use: 'bath', weight: 0.5 },
  { name: 'Laundry', use: 'laundry', weight: 0.5 },
  { name: 'Bedroom 4', use: 'bedroom', weight: 1 },
  { name: 'Study', use: 'other', weight: 0.8 },
  { name: 'Family room', use: 'living', weight: 1.4 },
  { name: 'Bath 3', use: 'bath', weight: 0.5 },
  { name: 'Bedroom 5', use: 'bedroom', weight: 1 },
  { name: 'Pantry', use: 'other', weight: 0.5 },
  { name: 'Guest room', use: 'bedroom', weight: 0.9 },
  { name: 'Workroom', use: 'other', weight: 0.8 },
  { name: 'Bath 4', use: 'bath', weight: 0.5 },
];

export const mostRooms = wanted.length;
/** One room at the end of the hall and one on either side of it. */
export const leastRoomsPerStorey = 3;

/** Length over depth of a usual house. */
const slenderness = 1.6;
const hallWidth_m = toSi('length', 4, 'ft');

const dayUses = new Set<Wanted['use']>(['living', 'kitchen', 'laundry', 'other']);

/** Which rooms go on which storey: day rooms below, bedrooms above, as far as both have enough. */
const byStorey = (rooms: number, storeys: number): readonly (readonly Wanted[])[] => {
  const all = wanted.slice(0, rooms);
  if (storeys === 1) return [all];
  const below = all.filter((room) => dayUses.has(room.use));
  const above = all.filter((room) => !dayUses.has(room.use));
  while (below.length < leastRoomsPerStorey) below.push(above.pop()!);
  while (above.length < leastRoomsPerStorey) above.unshift(below.pop()!);
  return [below, above];
};

/** Two rows of about equal weight. */
const inRows = (rooms: readonly Wanted[]): readonly [Wanted[], Wanted[]] => {
  const rows: [Wanted[], Wanted[]] = [[], []];
  const weight = (row: readonly Wanted[]) => row.reduce((sum, room) => sum + room.weight, 0);
  for (const room of [...rooms].sort((a, b) => b.weight - a.weight))
    rows[weight(rows[0]) <= weight(rows[1]) ? 0 : 1].push(room);
  return rows;
};

const storeyRooms = (
  rooms: readonly Wanted[],
  storey: number,
  { width_m, depth_m, axis_m }: Omit<Layout, 'rooms'>,
): readonly LaidRoom[] => {
  const [first, ...others] = rooms;
  const rowDepth_m = axis_m - hallWidth_m / 2;
  const [south, north] = inRows(others);
  const weight = (row: readonly Wanted[]) => row.reduce((sum, room) => sum + room.weight, 0);
  // The first room takes the whole depth at the west end, with its fair share of the floor.
  const west_m = (width_m * first!.weight) / (first!.weight + weight(others));
  const row = (side: 'south' | 'north', list: readonly Wanted[], y: number): readonly LaidRoom[] => {
    let x = west_m;
    return list.map((room) => {
      const wide = ((width_m - west_m) * room.weight) / weight(list);
      const laid: LaidRoom = {
        name: room.name,
        use: room.use,
        storey,
        corner_m: [x, y],
        width_m: wide,
        depth_m: rowDepth_m,
        side,
      };
      x += wide;
      return laid;
    });
  };
  return [
    {
      name: first!.name,
      use: first!.use,
      storey,
      corner_m: [0, 0],
      width_m: west_m,
      depth_m,
      side: 'west',
    },
    ...row('south', south, 0),
    ...row('north', north, axis_m + hallWidth_m / 2),
    {
      name: storey === 1 ? 'Hall' : 'Landing',
      use: 'hall',
      storey,
      corner_m: [west_m, rowDepth_m],
      width_m: width_m - west_m,
      depth_m: hallWidth_m,
      side: 'hall',
    },
  ];
};

/**
 * Rooms that tile a rectangle of the right area on each storey: one across the west end, the others in two rows along a
 * hall. `rooms` counts all but the halls: from 3 for each storey to `mostRooms`.
 */
export const layOut = (floorArea_m2: number, storeys: number, rooms: number): Layout => {
  const storeyArea_m2 = floorArea_m2 / storeys;
  const width_m = Math.sqrt(slenderness * storeyArea_m2);
  const frame = {
    width_m,
    depth_m: storeyArea_m2 / width_m,
    axis_m: storeyArea_m2 / width_m / 2,
  };
  return {
    ...frame,
    rooms: byStorey(rooms, storeys).flatMap((list, i) => storeyRooms(list, i + 1, frame)),
  };
};
