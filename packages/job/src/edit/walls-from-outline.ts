import type { HowKnown, PlanPoint, UnitSystem } from '@airledger/engine';
import type { Job, JobRoom, JobSurface } from '../schema/job-schema.ts';
import { outlineOf } from '../survey/plan.ts';
import { drawn } from './drawn.ts';
import { counterClockwise, distance, edgesOf, polygonArea, sharedStretches } from './geometry.ts';
import { heightOf, storeyOfRoom, storeyOfZone, storeysOf } from './in-job.ts';
import { overlapArea } from './overlap-area.ts';
import { areaText, lengthText } from './typed-text.ts';

/** What an area or length on the drawing is written with. */
export type Writing = { readonly units: UnitSystem; readonly known?: HowKnown };

/** Less than this is a slip of the hand: no wall, no ceiling. */
const leastLength_m = 0.1;
const leastArea_m2 = 0.3;
/** Ceiling, joists and floor between two storeys. */
const betweenStoreys = 'U-0.28';

const winds = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'] as const;

/** Direction that the right-hand side of an edge faces, in a word where one fits. */
const facingOf = ([a, b]: readonly [PlanPoint, PlanPoint]): string => {
  const degrees = (Math.atan2(b[1] - a[1], -(b[0] - a[0])) * 180) / Math.PI;
  const whole = (Math.round(degrees) + 360) % 360;
  const wind = Math.round(whole / 45);
  return Math.abs(whole - wind * 45) <= 1 ? winds[wind % 8]! : `${whole}°`;
};

type Neighbour = { readonly id: string; readonly isRoom: boolean; readonly outline: readonly PlanPoint[] };

const neighboursOf = (job: Job, room: JobRoom): readonly Neighbour[] => {
  const storey = storeyOfRoom(room);
  return [
    ...job.rooms
      .filter((each) => each.id !== room.id && storeyOfRoom(each) === storey)
      .map((each) => ({ id: each.id, isRoom: true, outline: outlineOf(each) })),
    ...(job.zones ?? [])
      .filter((zone) => storeyOfZone(job, zone) === storey)
      .map((zone) => ({ id: zone.id, isRoom: false, outline: outlineOf(zone) })),
  ]
    .filter(({ outline }) => outline.length >= 3)
    .map((each) => ({ ...each, outline: counterClockwise(each.outline) }));
};

/** Length of a room's edges by what lies beyond, and by direction where that is outdoors. */
const stretchesOf = (job: Job, room: JobRoom, outline: readonly PlanPoint[]) => {
  const lengths = new Map<string, { facing: string; beyond?: Neighbour; length_m: number }>();
  const neighbours = neighboursOf(job, room);
  for (const edge of edgesOf(counterClockwise(outline))) {
    const length = distance(...edge);
    const shared = neighbours.flatMap((neighbour) =>
      sharedStretches(edge, neighbour.outline).map((stretch) => ({ neighbour, ...stretch })),
    );
    const cuts = [0, length, ...shared.flatMap(({ from_m, to_m }) => [from_m, to_m])].sort((a, b) => a - b);
    for (let i = 1; i < cuts.length; i++) {
      const middle = (cuts[i - 1]! + cuts[i]!) / 2;
      const beyond = shared.find(({ from_m, to_m }) => from_m <= middle && middle <= to_m)?.neighbour;
      const facing = facingOf(edge);
      const key = beyond?.id ?? `/${facing}`;
      const before = lengths.get(key)?.length_m ?? 0;
      lengths.set(key, { facing, ...(beyond && { beyond }), length_m: before + cuts[i]! - cuts[i - 1]! });
    }
  }
  return [...lengths.values()].filter(({ length_m }) => length_m >= leastLength_m);
};

/**
 * Walls of a room as its outline gives them: exterior where nothing lies beyond, to a zone where one does, a
 * partition where another room does (listed in the first of the two, as it counts for both). Gross areas, length times
 * height; windows are taken out when the house is surveyed.
 */
export const wallsFromOutline = (
  job: Job,
  room: JobRoom,
  { units, known }: Writing,
): readonly JobSurface[] => {
  const outline = outlineOf(room);
  if (outline.length < 3) return [];
  const height_m = heightOf(job, room);
  const buried = storeyOfRoom(room) < 1;
  const order = job.rooms.map((each) => each.id);
  return stretchesOf(job, room, outline).flatMap(({ facing, beyond, length_m }): readonly JobSurface[] => {
    const area = drawn(areaText(length_m * height_m, units), known);
    if (beyond?.isRoom)
      return order.indexOf(beyond.id) > order.indexOf(room.id)
        ? [{ id: `to-${beyond.id}`, kind: 'partition', beyond: beyond.id, area }]
        : [];
    if (beyond) return [{ id: `${beyond.id}-wall`, kind: 'wall', beyond: beyond.id, area }];
    const id = facing.endsWith('°') ? `wall-${facing.slice(0, -1)}` : `${facing}-wall`;
    return [buried ? { id, kind: 'below-grade wall', area } : { id, kind: 'wall', facing, area }];
  });
};

/** Parts of a room's plan that lie under or over other spaces, and what is left of it. */
const coverage = (outline: readonly PlanPoint[], others: readonly Neighbour[]) => {
  const over = others
    .map((other) => ({ ...other, area_m2: overlapArea(outline, other.outline) }))
    .filter(({ area_m2 }) => area_m2 >= leastArea_m2);
  const rest_m2 = polygonArea(outline) - over.reduce((sum, { area_m2 }) => sum + area_m2, 0);
  return { over, rest_m2: rest_m2 >= leastArea_m2 ? rest_m2 : 0 };
};

const roomsOn = (job: Job, storey: number): readonly Neighbour[] =>
  job.rooms
    .filter((room) => storeyOfRoom(room) === storey)
    .map((room) => ({ id: room.id, isRoom: true, outline: outlineOf(room) }));

/** Zones that cover or carry; one without an outline takes all that no other does. */
const zonesOn = (job: Job, kinds: readonly string[], storeys: readonly number[]) => {
  const zones = (job.zones ?? []).filter(
    (zone) => kinds.includes(zone.kind) && storeys.includes(storeyOfZone(job, zone)),
  );
  return {
    outlined: zones
      .map((zone) => ({ id: zone.id, isRoom: false, outline: outlineOf(zone) }))
      .filter(({ outline }) => outline.length >= 3),
    whole: zones.find((zone) => outlineOf(zone).length < 3)?.id,
  };
};

/** Ceiling of a room by what its storey lies under: rooms above, an attic, or outdoors. */
export const ceilingsFromOutline = (
  job: Job,
  room: JobRoom,
  { units, known }: Writing,
): readonly JobSurface[] => {
  const outline = outlineOf(room);
  if (outline.length < 3) return [];
  const storey = storeyOfRoom(room);
  const area = (area_m2: number) => drawn(areaText(area_m2, units), known);
  const { outlined, whole } = zonesOn(job, ['attic'], [storey + 1, Math.max(...storeysOf(job)) + 1]);
  const rooms = coverage(outline, roomsOn(job, storey + 1));
  const rest_m2 = rooms.rest_m2;
  const attics = rest_m2 > 0 ? coverage(outline, outlined).over : [];
  // An attic reaches over everything that no room stands on.
  const attic = attics[0]?.id ?? whole;
  return [
    ...rooms.over.map(
      ({ id, area_m2 }): JobSurface => ({
        id: `below-${id}`,
        kind: 'partition',
        beyond: id,
        area: area(area_m2),
        u: { value: betweenStoreys, known: 'assumed', note: 'ceiling, joists and floor' },
      }),
    ),
    ...(rest_m2 > 0
      ? [{ id: 'ceiling', kind: 'ceiling' as const, beyond: attic ?? 'outdoors', area: area(rest_m2) }]
      : []),
  ];
};

/** Floor of a room by what it stands on: rooms below (their ceilings count), a zone, the ground, or outdoors. */
export const floorsFromOutline = (
  job: Job,
  room: JobRoom,
  { units, known }: Writing,
): readonly JobSurface[] => {
  const outline = outlineOf(room);
  if (outline.length < 3) return [];
  const storey = storeyOfRoom(room);
  const area = (area_m2: number) => drawn(areaText(area_m2, units), known);
  if (storey < 1)
    return [{ id: 'basement-floor', kind: 'below-grade floor', area: area(polygonArea(outline)) }];
  const zones = zonesOn(job, ['basement', 'crawlspace', 'garage'], [storey - 1]);
  const below = coverage(outline, [...roomsOn(job, storey - 1), ...zones.outlined]);
  const floors = below.over
    .filter(({ isRoom }) => !isRoom)
    .map(
      ({ id, area_m2 }): JobSurface => ({
        id: `floor-over-${id}`,
        kind: 'floor',
        beyond: id,
        area: area(area_m2),
      }),
    );
  if (below.rest_m2 === 0) return floors;
  if (zones.whole !== undefined)
    return [
      ...floors,
      { id: `floor-over-${zones.whole}`, kind: 'floor', beyond: zones.whole, area: area(below.rest_m2) },
    ];
  if (storey > 1)
    return [...floors, { id: 'floor', kind: 'floor', beyond: 'outdoors', area: area(below.rest_m2) }];
  const edge_m = stretchesOf(job, room, outline).reduce(
    (sum, { beyond, length_m }) => sum + (beyond?.isRoom ? 0 : length_m),
    0,
  );
  return [
    ...floors,
    {
      id: 'slab',
      kind: 'slab',
      area: area(below.rest_m2),
      edge: drawn(lengthText(edge_m, units), known),
    },
  ];
};
