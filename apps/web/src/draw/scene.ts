import type { PlanPoint } from '@airledger/engine';
import {
  counterClockwise,
  edgesOf,
  type Job,
  type JobDoor,
  type JobPart,
  type JobRoom,
  type JobSurface,
  type JobTransfer,
  type JobZone,
  middleOf,
  nearestOnPath,
  outlineOf,
  planPathOf,
  pointInPolygon,
  pointOf,
  sharedStretches,
  siOf,
  storeyOfZone,
} from '@airledger/job';
import { isSame, type Selected } from './selection.ts';

type Edge = readonly [PlanPoint, PlanPoint];
export type OpeningSpot = {
  readonly item: Selected;
  readonly at: PlanPoint;
  /** Wall it sits in. */
  readonly along: Edge;
  readonly width_m: number;
};
export type AirHandlerSpot = { readonly system: string; readonly at: PlanPoint };

const storeyOf = (item: { readonly storey?: number | undefined }): number => item.storey ?? 1;

export const roomsOn = (job: Job, storey: number): readonly JobRoom[] =>
  job.rooms.filter((room) => storeyOf(room) === storey && outlineOf(room).length >= 3);

/** Zones with an outline that touch a storey: on it, over it or under it. */
export const zonesOn = (job: Job, storey: number): readonly JobZone[] =>
  (job.zones ?? []).filter(
    (zone) => Math.abs(storeyOfZone(job, zone) - storey) <= 1 && outlineOf(zone).length >= 3,
  );

export const partsOn = (job: Job, storey: number): readonly { system: string; part: JobPart }[] =>
  (job.systems ?? []).flatMap((system) =>
    system.parts
      .filter((part) => storeyOf(part) === storey && (part.path?.length ?? 0) >= 2)
      .map((part) => ({ system: system.id, part })),
  );

/** Where an air handler stands: where it was put, else where its ducts begin. */
export const airHandlersOn = (job: Job, storey: number): readonly AirHandlerSpot[] =>
  (job.systems ?? []).flatMap((system) => {
    const starts = system.parts.flatMap((part) =>
      part.joins === 'air-handler'
        ? planPathOf(part)
            .slice(0, 1)
            .map((at) => ({ at, part }))
        : [],
    );
    const own = system.airHandler.storey ?? starts[0]?.part.storey ?? 1;
    if (own !== storey) return [];
    if (system.airHandler.spot) return [{ system: system.id, at: pointOf(system.airHandler.spot) }];
    return starts.length === 0 ? [] : [{ system: system.id, at: middleOf(starts.map((start) => start.at)) }];
  });

export const systemOfPart = (job: Job, id: string): string | undefined =>
  job.systems?.find((system) => system.parts.some((part) => part.id === id))?.id;

/** The part at whose end a register stands. */
export const partOfRegister = (job: Job, id: string): JobPart | undefined =>
  job.systems?.flatMap((system) => system.parts).find((part) => part.terminal?.id === id);

const lengthOf = ([a, b]: Edge): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
const between = ([a, b]: Edge, share: number): PlanPoint => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];

const widthOf = (size: string | undefined, usual_m: number): number => {
  const text = /^\s*([\d.]+)\s*(ft|in|m|cm|mm)?/.exec(size ?? '');
  const unit = { ft: 0.3048, in: 0.0254, m: 1, cm: 0.01, mm: 0.001 }[text?.[2] ?? 'ft']!;
  return text ? Number(text[1]) * unit : usual_m;
};

/** Stretch of wall that two rooms of a storey share, the longest. */
export const wallBetween = (a: JobRoom, b: JobRoom): Edge | undefined => {
  const other = counterClockwise(outlineOf(b));
  return edgesOf(counterClockwise(outlineOf(a)))
    .flatMap((edge) =>
      sharedStretches(edge, other).map(({ from_m, to_m }): Edge => {
        const length = lengthOf(edge);
        return [between(edge, from_m / length), between(edge, to_m / length)];
      }),
    )
    .sort((one, two) => lengthOf(two) - lengthOf(one))[0];
};

const onWall = (spot: string | undefined, wall: Edge, share: number): PlanPoint =>
  spot === undefined ? between(wall, share) : nearestOnPath(pointOf(spot), wall).point;

/** Doors and transfer paths in the walls between the rooms of a storey. */
const spotsBetween = (job: Job, storey: number): readonly OpeningSpot[] => {
  const rooms = new Map(roomsOn(job, storey).map((room) => [room.id, room]));
  const spot = (
    item: Selected,
    { between, spot: at }: JobDoor | JobTransfer,
    share: number,
    width_m: number,
  ) => {
    const [a, b] = between.map((id) => rooms.get(id));
    const along = a && b && wallBetween(a, b);
    return along ? [{ item, at: onWall(at, along, share), along, width_m }] : [];
  };
  return [
    ...(job.doors ?? []).flatMap((door) =>
      spot({ kind: 'door', id: door.id }, door, 0.5, widthOf(door.size, 0.81)),
    ),
    // Beside the door that the same wall is likely to have.
    ...(job.transfers ?? []).flatMap((transfer) =>
      spot(
        { kind: 'transfer', id: transfer.id },
        transfer,
        0.8,
        siOf(transfer.diameter, 'size') ?? widthOf(transfer.face, 0.3),
      ),
    ),
  ];
};

const winds = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'];

const degreesOf = (facing: JobSurface['facing']): number | undefined => {
  if (facing === undefined) return undefined;
  const text = String(typeof facing === 'object' ? facing.value : facing).toLowerCase();
  const wind = winds.indexOf(text);
  const degrees = wind >= 0 ? wind * 45 : Number.parseFloat(text);
  return Number.isNaN(degrees) ? undefined : degrees;
};

/** Direction that the right-hand side of an edge faces, degrees from north. */
export const facingOf = ([a, b]: Edge): number =>
  ((Math.atan2(b[1] - a[1], -(b[0] - a[0])) * 180) / Math.PI + 360) % 360;

const turnedBy = (a: number, b: number): number => {
  const away = Math.abs(a - b) % 360;
  return Math.min(away, 360 - away);
};

const windowSpots = (job: Job, storey: number): readonly OpeningSpot[] =>
  roomsOn(job, storey).flatMap((room) => {
    const edges = edgesOf(counterClockwise(outlineOf(room)));
    const openings = (room.surfaces ?? []).filter(
      (surface) => (surface.kind === 'window' || surface.kind === 'door') && surface.in !== undefined,
    );
    return openings.flatMap((opening) => {
      const wall = room.surfaces!.find((surface) => surface.id === opening.in);
      const facing = degreesOf(wall?.facing);
      if (facing === undefined) return [];
      const edge = edges
        .filter((each) => turnedBy(facingOf(each), facing) < 30)
        .sort((one, two) => lengthOf(two) - lengthOf(one))[0];
      if (!edge) return [];
      const beside = openings.filter((each) => each.in === opening.in);
      const spot = opening.spot && pointOf(opening.spot);
      const own = spot
        ? edges
            .filter((each) => turnedBy(facingOf(each), facing) < 30)
            .sort((one, two) => nearestOnPath(spot, one).away_m - nearestOnPath(spot, two).away_m)[0]
        : undefined;
      const along = own ?? edge;
      return [
        {
          item: { kind: 'window' as const, id: opening.id, room: room.id },
          at: onWall(opening.spot, along, (beside.indexOf(opening) + 1) / (beside.length + 1)),
          along,
          width_m: widthOf(opening.size, 0.9),
        },
      ];
    });
  });

/** Doors, transfer paths and windows of a storey, where they are drawn. */
export const openingsOn = (job: Job, storey: number): readonly OpeningSpot[] => [
  ...spotsBetween(job, storey),
  ...windowSpots(job, storey),
];

/** What attracts the pointer: corners and ends, then walls and ducts. */
export const attractors = (
  job: Job,
  storey: number,
  except: readonly Selected[] = [],
): { readonly points: readonly PlanPoint[]; readonly lines: readonly Edge[] } => {
  const is = (item: Selected): boolean => !except.some((each) => isSame(each, item));
  const outlines = [
    ...roomsOn(job, storey).filter(({ id }) => is({ kind: 'room', id })),
    ...zonesOn(job, storey).filter(({ id }) => is({ kind: 'zone', id })),
  ].map(outlineOf);
  // Rooms above and below stand on the same walls.
  const beyond = job.rooms
    .filter((room) => Math.abs(storeyOf(room) - storey) === 1)
    .map(outlineOf)
    .filter((outline) => outline.length >= 3);
  const paths = partsOn(job, storey)
    .filter(({ part }) => is({ kind: 'part', id: part.id }))
    .map(({ part }) => planPathOf(part));
  return {
    points: [
      ...airHandlersOn(job, storey)
        .filter(({ system }) => is({ kind: 'airHandler', id: system }))
        .map(({ at }) => at),
      ...outlines.flat(),
      ...paths.flat(),
      ...beyond.flat(),
    ],
    lines: [
      ...outlines.flatMap(edgesOf),
      ...paths.flatMap((path) => path.slice(1).map((point, i): Edge => [path[i]!, point])),
    ],
  };
};

/** Everything on a storey that a hand could mean at a point, the most particular first. */
export const hitsAt = (job: Job, storey: number, point: PlanPoint, reach_m: number): readonly Selected[] => {
  const near = (at: PlanPoint, reach = reach_m): boolean =>
    Math.hypot(at[0] - point[0], at[1] - point[1]) <= reach;
  const parts = partsOn(job, storey);
  return [
    ...parts.flatMap(({ part }): Selected[] =>
      part.terminal && near(planPathOf(part).at(-1)!) ? [{ kind: 'register', id: part.terminal.id }] : [],
    ),
    ...airHandlersOn(job, storey).flatMap(({ system, at }): Selected[] =>
      near(at, Math.max(reach_m, 0.4)) ? [{ kind: 'airHandler', id: system }] : [],
    ),
    ...openingsOn(job, storey).flatMap(({ item, at, width_m }) =>
      near(at, Math.max(reach_m, width_m / 2)) && near(at, reach_m + width_m / 2) ? [item] : [],
    ),
    ...parts
      .map(({ part }) => ({ part, away_m: nearestOnPath(point, planPathOf(part)).away_m }))
      .filter(({ away_m }) => away_m <= reach_m)
      .sort((a, b) => a.away_m - b.away_m)
      .map(({ part }): Selected => ({ kind: 'part', id: part.id })),
    ...roomsOn(job, storey)
      .filter((room) => pointInPolygon(point, outlineOf(room)))
      .map((room): Selected => ({ kind: 'room', id: room.id })),
    ...zonesOn(job, storey)
      .filter((zone) => pointInPolygon(point, outlineOf(zone)))
      .map((zone): Selected => ({ kind: 'zone', id: zone.id })),
  ];
};

/** Points that a selected thing is made of, for zooming and for the marquee. */
export const pointsOf = (job: Job, storey: number, item: Selected): readonly PlanPoint[] => {
  switch (item.kind) {
    case 'room': {
      const room = job.rooms.find((each) => each.id === item.id);
      return room ? outlineOf(room) : [];
    }
    case 'zone': {
      const zone = job.zones?.find((each) => each.id === item.id);
      return zone ? outlineOf(zone) : [];
    }
    case 'part': {
      const found = partsOn(job, storey).find(({ part }) => part.id === item.id);
      return found ? planPathOf(found.part) : [];
    }
    case 'register': {
      const part = partOfRegister(job, item.id);
      return part ? planPathOf(part).slice(-1) : [];
    }
    case 'airHandler':
      return airHandlersOn(job, storey)
        .filter(({ system }) => system === item.id)
        .map(({ at }) => at);
    case 'door':
    case 'transfer':
    case 'window':
      return openingsOn(job, storey)
        .filter((each) => isSame(each.item, item))
        .map(({ at }) => at);
    default:
      return [];
  }
};

/** Rooms, ducts, registers, openings and air handlers that lie wholly within a box. */
export const within = (
  job: Job,
  storey: number,
  [[x1, y1], [x2, y2]]: readonly [PlanPoint, PlanPoint],
): readonly Selected[] => {
  const all: readonly Selected[] = [
    ...roomsOn(job, storey).map(({ id }): Selected => ({ kind: 'room', id })),
    ...zonesOn(job, storey).map(({ id }): Selected => ({ kind: 'zone', id })),
    ...partsOn(job, storey).map(({ part }): Selected => ({ kind: 'part', id: part.id })),
    ...airHandlersOn(job, storey).map(({ system }): Selected => ({ kind: 'airHandler', id: system })),
    ...openingsOn(job, storey).map(({ item }) => item),
  ];
  const inside = ([x, y]: PlanPoint): boolean =>
    x >= Math.min(x1, x2) && x <= Math.max(x1, x2) && y >= Math.min(y1, y2) && y <= Math.max(y1, y2);
  return all.filter((item) => pointsOf(job, storey, item).every(inside));
};
