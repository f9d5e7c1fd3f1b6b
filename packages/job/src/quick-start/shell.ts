import { toSi } from '@airledger/engine';
import { heightOf } from '../edit/in-job.ts';
import {
  addDoor,
  addRoom,
  addWindow,
  addZone,
  idFrom,
  type NewRoom,
  newJob,
  redraw,
  sizeText,
} from '../edit/index.ts';
import { siOf } from '../edit/typed-text.ts';
import type { Job, JobRoom, JobSurface, JobZone } from '../schema/job-schema.ts';
import { named, stations } from '../survey/tables.ts';
import { assumed } from './assumed.ts';
import type { LaidRoom, Layout } from './layout.ts';
import type { QuickStart } from './quick-start.ts';
import { isWarm, type Vintage, vintageOf } from './vintage.ts';

/** Glass over floor area of a usual house (common practice, no source). */
const glassShare = 0.14;
const ft = toSi('length', 1, 'ft');
const pane = { width_m: 3 * ft, height_m: 5 * ft };
const smallPane = { width_m: 2 * ft, height_m: 3 * ft };
/** Most of a wall that windows take. */
const mostOfWall = 0.6;

export const roomId = (room: LaidRoom): string => idFrom(room.name);

const roomFrom = (room: LaidRoom): NewRoom => ({
  id: roomId(room),
  name: room.name,
  use: room.use,
  storey: room.storey,
  floor: { corner_m: room.corner_m, width_m: room.width_m, depth_m: room.depth_m },
});

const assemblyOf = (surface: JobSurface, vintage: Vintage): string | undefined => {
  switch (surface.kind) {
    case 'wall':
      return vintage.wall;
    case 'ceiling':
      return vintage.ceiling;
    case 'floor':
      return vintage.floor;
    case 'slab':
      return vintage.slab;
    default:
      return undefined;
  }
};

const assembled = (room: JobRoom, vintage: Vintage): JobRoom => ({
  ...room,
  surfaces: room.surfaces!.map((surface) => {
    const assembly = assemblyOf(surface, vintage);
    return assembly === undefined ? surface : { ...surface, assembly };
  }),
});

/** Windows on every outside wall, by the length of the wall, so that the house has its usual share of glass. */
const withWindows = (job: Job, floorArea_m2: number, vintage: Vintage, warm: boolean): Job => {
  const walls = job.rooms.flatMap((room) =>
    (room.surfaces ?? [])
      .filter((surface) => surface.kind === 'wall' && surface.beyond === undefined)
      .map((wall) => ({ room, wall, area_m2: siOf(wall.area, 'area')! })),
  );
  const total_m2 = walls.reduce((sum, { area_m2 }) => sum + area_m2, 0);
  return walls.reduce((next, { room, wall, area_m2 }) => {
    const glass_m2 = Math.min((glassShare * floorArea_m2 * area_m2) / total_m2, mostOfWall * area_m2);
    const count = Math.round(glass_m2 / (pane.width_m * pane.height_m));
    const size = count > 0 ? pane : smallPane;
    // Short walls of baths and halls stay without.
    if (size.width_m > (mostOfWall * area_m2) / heightOf(job, room)) return next;
    return addWindow(next, room.id, {
      id: wall.id.replace(/-wall$/, count > 1 ? '-windows' : '-window'),
      in: wall.id,
      size: sizeText(size.width_m, size.height_m, 'ip'),
      ...(count > 1 && { count }),
      assembly: vintage.window[warm ? 'warm' : 'cold'],
    });
  }, job);
};

const withDoors = (job: Job, layout: Layout): Job => {
  const hallOf = (storey: number): LaidRoom =>
    layout.rooms.find((room) => room.side === 'hall' && room.storey === storey)!;
  const halls = layout.rooms.filter((room) => room.side === 'hall');
  const doored = layout.rooms
    .filter((room) => room.side !== 'hall')
    .reduce((next, room) => {
      const between = [roomId(hallOf(room.storey)), roomId(room)];
      const isOpen = room.use === 'living' || room.use === 'kitchen';
      return addDoor(next, {
        id: `${isOpen ? 'opening' : 'door'}-${roomId(room)}`,
        between,
        open: isOpen || room.use !== 'bedroom',
        ...(isOpen && { opening: true, size: '4 ft x 7 ft' }),
      });
    }, job);
  const [hall, landing] = halls;
  return landing
    ? addDoor(doored, {
        id: 'stairwell',
        between: [roomId(hall!), roomId(landing)],
        open: true,
        opening: true,
        size: '3 ft x 8 ft',
      })
    : doored;
};

/** Zones around the house: the attic always, and what carries it or holds its ducts. */
const zonesFor = ({ ductPlace, storeys }: QuickStart, vintage: Vintage, area: string): readonly JobZone[] => {
  const attic: JobZone = { id: 'attic', name: 'Attic', kind: 'attic', vented: true };
  const between: JobZone = {
    id: 'between-floors',
    name: 'Between floors',
    kind: 'between floors',
    insideEnvelope: true,
    floorArea: assumed(area),
  };
  if (ductPlace === 'basement')
    return [
      attic,
      {
        id: 'basement',
        name: 'Basement',
        kind: 'basement',
        surfaces: [
          {
            id: 'walls',
            kind: 'below-grade wall',
            area: assumed(area, '0.9 of the floor area'),
            assembly: vintage.basementWall,
          },
          { id: 'floor', kind: 'below-grade floor', area: assumed(area), assembly: 'basement floor' },
        ],
      },
    ];
  if (ductPlace === 'crawlspace')
    return [attic, { id: 'crawlspace', name: 'Crawlspace', kind: 'crawlspace', vented: true }];
  return storeys > 1 ? [attic, between] : [attic];
};

/** The house without its systems: rooms, surfaces, windows, doors and zones, all of it assumed. */
export const shellOf = (start: QuickStart, layout: Layout): Job => {
  const vintage = vintageOf(start.yearBuilt);
  const station = named(stations, start.station)!;
  const warm = isWarm(station.zone);
  const writing = { units: start.units ?? 'ip', known: 'assumed' } as const;
  const floorArea_m2 = layout.width_m * layout.depth_m * start.storeys;
  const [first, ...others] = layout.rooms;
  const rooms = others.reduce(
    (job, room) => addRoom(job, roomFrom(room), writing),
    newJob({ name: start.name, station: start.station, room: roomFrom(first!) }, writing),
  );
  const storeyArea = `${Math.round(toFeet2(layout.width_m * layout.depth_m))} ft²`;
  const zoned = zonesFor(start, vintage, storeyArea).reduce(
    (job, zone) => addZone(job, zone, writing),
    rooms,
  );
  const house: Job = redraw(
    {
      ...zoned,
      house: {
        bedrooms: layout.rooms.filter((room) => room.use === 'bedroom').length,
        storeys: start.storeys,
        ceilingHeight: assumed(writing.units === 'ip' ? '8 ft' : '2.44 m'),
        airChanges50: assumed(vintage.airChanges50[warm ? 'warm' : 'cold'], vintage.source),
        yearBuilt: start.yearBuilt,
      },
    },
    writing,
  );
  const made = { ...house, rooms: house.rooms.map((room) => assembled(room, vintage)) };
  return withDoors(withWindows(made, floorArea_m2, vintage, warm), layout);
};

const toFeet2 = (area_m2: number): number => area_m2 / ft ** 2;
