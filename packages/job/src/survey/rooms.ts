import type { House, Room, Surface } from '@airledger/engine';
import type { Job, JobRoom } from '../schema/job-schema.ts';
import { outlineOf, planArea } from './plan.ts';
import { type Fallback, type Surveyor, usually, usualValue } from './surveyor.ts';
import { defaultOf, tightnessOf } from './tables.ts';

/** A room before the house's leakage and its people are shared out over the rooms. */
type BareRoom = Omit<Room, 'envelopeShare' | 'envelopeTo' | 'internalSensible_W' | 'internalLatent_W'>;

export const bareRoom = (room: JobRoom, ceiling: Fallback, survey: Surveyor): BareRoom => {
  const path = `rooms/${room.id}`;
  const onPlan = planArea(room);
  const floorArea_m2 =
    room.floorArea === undefined && onPlan !== undefined
      ? onPlan
      : survey.quantity(`${path}/floorArea`, room.floorArea, 'area', {
          value: Number.NaN,
          source: 'not stated',
        });
  const height_m = survey.quantity(`${path}/height`, room.height, 'length', ceiling);
  const heating = survey.optional(`${path}/airflow/heating`, room.airflow?.heating, 'airflow');
  const cooling = survey.optional(`${path}/airflow/cooling`, room.airflow?.cooling, 'airflow');
  return {
    id: room.id,
    name: room.name ?? room.id.replaceAll('-', ' '),
    storey: room.storey ?? 1,
    floorArea_m2,
    height_m,
    volume_m3: floorArea_m2 * height_m,
    outline_m: outlineOf(room),
    ...((heating !== undefined || cooling !== undefined) && { designAirflow_m3s: { heating, cooling } }),
  };
};

/** Shares of 1: what is typed stays, the rest goes to the others by weight. */
const shared = (
  rooms: readonly { readonly typed: number | undefined; readonly weight: number }[],
): readonly number[] => {
  const rest = Math.max(0, 1 - rooms.reduce((sum, { typed = 0 }) => sum + typed, 0));
  const weight = rooms.reduce((sum, room) => sum + (room.typed === undefined ? room.weight : 0), 0);
  return rooms.map((room) => room.typed ?? (weight > 0 ? (rest * room.weight) / weight : 0));
};

const livingUses = new Set(['living', 'kitchen']);

/**
 * Rooms with their share of leakage and of people and appliances.
 * People and appliances: sensible 136 + 2.2·A + 22·N W, latent 20 + 0.22·A + 12·N W with A the floor area in m² and
 * N bedrooms + 1 people (ASHRAE Handbook—Fundamentals 2021 ch. 17), in living rooms and kitchens by floor area.
 */
export const roomsFrom = (
  job: Job,
  bare: readonly BareRoom[],
  surfaces: readonly Surface[],
  outsideZones: ReadonlySet<string>,
  bedrooms: number,
  survey: Surveyor,
): readonly Room[] => {
  const area = bare.reduce((sum, room) => sum + room.floorArea_m2, 0);
  const people = bedrooms + 1;
  const gains = { sensible: 136 + 2.2 * area + 22 * people, latent: 20 + 0.22 * area + 12 * people };
  const lived = job.rooms.some((room) => livingUses.has(room.use ?? 'other'));
  const livingArea = bare.reduce(
    (sum, room, i) => sum + (livesIn(job.rooms[i]!, lived) ? room.floorArea_m2 : 0),
    0,
  );
  const shares = shared(
    bare.map((room, i) => ({
      typed: survey.optional(`rooms/${room.id}/leakageShare`, job.rooms[i]!.leakageShare, 'ratio'),
      weight: room.volume_m3,
    })),
  );
  return bare.map((room, i): Room => {
    const typed = job.rooms[i]!;
    const path = `rooms/${room.id}`;
    const part = livesIn(typed, lived) ? room.floorArea_m2 / livingArea : 0;
    const gain = (kind: 'sensible' | 'latent'): Fallback =>
      part === 0
        ? usually('room.gain.none')
        : {
            value: gains[kind] * part,
            source: 'ASHRAE Handbook—Fundamentals 2021 ch. 17, by floor area of living rooms',
          };
    return {
      ...room,
      envelopeShare: shares[i]!,
      envelopeTo: typed.leakageTo
        ? typed.leakageTo.map(({ zone, share }, j) => ({
            zone,
            share: survey.required(`${path}/leakageTo/${j}/share`, share, 'ratio'),
          }))
        : leakageTo(room.id, surfaces, outsideZones),
      internalSensible_W: survey.quantity(
        `${path}/sensibleGain`,
        typed.sensibleGain,
        'power',
        gain('sensible'),
      ),
      internalLatent_W: survey.quantity(`${path}/latentGain`, typed.latentGain, 'power', gain('latent')),
    };
  });
};

const livesIn = (room: JobRoom, someLive: boolean): boolean =>
  !someLive || livingUses.has(room.use ?? 'other');

/** Leaks of a room open to a buffer zone as its surfaces do, by area. */
const leakageTo = (
  room: string,
  surfaces: readonly Surface[],
  outsideZones: ReadonlySet<string>,
): Room['envelopeTo'] => {
  const own = surfaces.filter((surface) => surface.inside === room && exposed(surface, outsideZones));
  const total = own.reduce((sum, surface) => sum + surface.area_m2, 0);
  const byZone = new Map<string, number>();
  for (const surface of own)
    if (surface.beyond !== 'outdoors')
      byZone.set(surface.beyond, (byZone.get(surface.beyond) ?? 0) + surface.area_m2 / total);
  return [...byZone].map(([zone, share]) => ({ zone, share }));
};

/** True for a surface through which air can leave the envelope: to outdoors or to a zone outside the insulation. */
const exposed = (surface: Surface, outsideZones: ReadonlySet<string>): boolean =>
  surface.beyond === 'outdoors' || outsideZones.has(surface.beyond);

/** House as a whole; its leakage from a blower door, from air changes, or from a word for its tightness. */
export const houseFrom = (
  job: Job,
  rooms: readonly BareRoom[],
  surfaces: readonly Surface[],
  outsideZones: ReadonlySet<string>,
  survey: Surveyor,
): House => {
  const house = job.house ?? {};
  const roomIds = new Set(rooms.map((room) => room.id));
  const volume = rooms.reduce((sum, room) => sum + room.volume_m3, 0);
  const storeys =
    house.storeys ?? new Set(rooms.map((room) => room.storey).filter((storey) => storey > 0)).size;
  const exponent = survey.quantity(
    'house/leakageExponent',
    house.leakageExponent,
    'number',
    usually('house.leakageExponent'),
  );
  const tallest = new Map<number, number>();
  for (const room of rooms) tallest.set(room.storey, Math.max(tallest.get(room.storey) ?? 0, room.height_m));
  const heights = [...tallest.values()];
  const changes = survey.optional('house/airChanges50', house.airChanges50, 'airChange');
  return {
    conditionedFloorArea_m2: survey.quantity('house/floorArea', house.floorArea, 'area', {
      value: rooms.reduce((sum, room) => sum + room.floorArea_m2, 0),
      source: 'sum of the rooms',
    }),
    bedrooms: bedroomsOf(job),
    storeys: Math.max(1, storeys),
    height_m: survey.quantity('house/height', house.height, 'length', {
      value:
        heights.reduce((sum, height) => sum + height, 0) +
        usualValue('house.floorThickness', 'length') * (heights.length - 1),
      source: `heights of the storeys and ${defaultOf('house.floorThickness').value} for each floor between`,
    }),
    leakage50_m3s: survey.quantity(
      'house/leakage50',
      house.leakage50,
      'airflow',
      changes === undefined
        ? leakageByWord(
            house.tightness ?? 'average',
            exponent,
            surfaces.filter((s) => roomIds.has(s.inside)),
            outsideZones,
          )
        : { value: (changes * volume) / 3600, source: 'air changes at 50 Pa' },
    ),
    leakageExponent: exponent,
    flueArea_cm2:
      1e4 * survey.quantity('house/flueArea', house.flueArea, 'opening', usually('house.flueArea')),
    ...(house.combustionInside !== undefined && { combustionInside: house.combustionInside }),
    ...(house.yearBuilt !== undefined && { yearBuilt: house.yearBuilt }),
  };
};

export const bedroomsOf = (job: Job): number =>
  job.house?.bedrooms ?? job.rooms.filter((room) => room.use === 'bedroom').length;

/** Flow at 50 Pa of the leakage area (4 Pa, discharge coefficient 1) that a word stands for. */
const leakageByWord = (
  word: string,
  exponent: number,
  surfaces: readonly Surface[],
  outsideZones: ReadonlySet<string>,
): Fallback => {
  const row = tightnessOf(word);
  const area = surfaces.reduce(
    (sum, surface) => sum + (exposed(surface, outsideZones) ? surface.area_m2 : 0),
    0,
  );
  const flow4 = row.leakagePerExposed * area * Math.sqrt((2 * 4) / 1.2041);
  return { value: flow4 * (50 / 4) ** exponent, source: `"${word}" house: ${row.source}` };
};
