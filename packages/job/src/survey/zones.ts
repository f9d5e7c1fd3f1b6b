import type { BufferZone, Room, Surface } from '@airledger/engine';
import type { JobSurface, JobZone } from '../schema/job-schema.ts';
import { outlineOf, planArea } from './plan.ts';
import { surfacesOf } from './surfaces.ts';
import { type Surveyor, tableValue } from './surveyor.ts';
import { type ZoneRow, zoneOf } from './tables.ts';

/** A vent taken as an orifice in air of ordinary density. */
const discharge = 0.6;
const density_kgm3 = 1.2;

const ventedByNature = (zone: JobZone): boolean => zone.kind === 'attic' || zone.kind === 'crawlspace';

/** Usual surfaces of a zone whose own are not typed, as a user could have typed them. */
const usualSurfaces = (row: ZoneRow, floorArea_m2: number): readonly JobSurface[] =>
  row.surfaces.map((surface) => ({
    id: surface.kind.replaceAll(' ', '-'),
    kind: surface.kind,
    beyond: surface.beyond,
    area: { value: `${surface.areaPerFloor * floorArea_m2} m²`, known: 'assumed' },
    assembly: surface.assembly,
  }));

/** Floor area of the storey that an attic covers, or that stands on a crawlspace or basement. */
const coveredArea = (zone: JobZone, rooms: readonly Room[]): number => {
  const storeys = rooms.map((room) => room.storey);
  const storey = zone.kind === 'attic' ? Math.max(...storeys) : Math.min(...storeys);
  return rooms.reduce((sum, room) => sum + (room.storey === storey ? room.floorArea_m2 : 0), 0);
};

const usualStorey = (zone: JobZone, rooms: readonly Room[]): number => {
  const storeys = rooms.map((room) => room.storey);
  if (zone.kind === 'attic') return Math.max(...storeys) + 1;
  return zone.kind === 'crawlspace' || zone.kind === 'basement' ? Math.min(...storeys) - 1 : 1;
};

/** One buffer zone and the surfaces it owns. */
export const zoneFrom = (
  zone: JobZone,
  rooms: readonly Room[],
  survey: Surveyor,
): { readonly zone: BufferZone; readonly surfaces: readonly Surface[] } => {
  const path = `zones/${zone.id}`;
  const row = zoneOf(zone.kind, zone.vented ?? ventedByNature(zone));
  const table = (text: string) => ({ text, source: row.source });
  const onPlan = planArea(zone);
  const floorArea_m2 = survey.quantity(`${path}/floorArea`, zone.floorArea, 'area', {
    value: onPlan ?? coveredArea(zone, rooms),
    source: onPlan === undefined ? 'floor area of the storey it covers or carries' : 'its outline',
  });
  const vent_m2 = survey.quantity(`${path}/ventArea`, zone.ventArea, 'opening', {
    value: row.ventShare * floorArea_m2,
    source: row.source,
  });
  const outline = outlineOf(zone);
  return {
    zone: {
      id: zone.id,
      name: zone.name ?? zone.id,
      kind: zone.kind,
      volume_m3: survey.quantity(`${path}/volume`, zone.volume, 'volume', {
        value: floorArea_m2 * tableValue(row.height, 'length'),
        source: `floor area times a usual height of ${row.height}; common practice, no source`,
      }),
      airChange_perHour: {
        heating: survey.quantity(
          `${path}/airChangeHeating`,
          zone.airChangeHeating,
          'airChange',
          table(row.airChangeHeating),
        ),
        cooling: survey.quantity(
          `${path}/airChangeCooling`,
          zone.airChangeCooling,
          'airChange',
          table(row.airChangeCooling),
        ),
      },
      openingCoefficient: discharge * vent_m2 * Math.sqrt(2 / density_kgm3),
      openingExponent: 0.5,
      insideEnvelope: zone.insideEnvelope ?? false,
      ...(outline.length > 0 && { outline_m: outline }),
      storey: zone.storey ?? usualStorey(zone, rooms),
    },
    surfaces: surfacesOf(
      { path, id: zone.id, floorArea_m2 },
      zone.surfaces ?? usualSurfaces(row, floorArea_m2),
      survey,
    ),
  };
};
