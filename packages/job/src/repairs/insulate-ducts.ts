import type { AirSystem, DuctPart, Survey } from '@airledger/engine';
import { siOf } from '../edit/typed-text.ts';
import type { Job } from '../schema/job-schema.ts';
import type { Proposal } from './candidate.ts';
import {
  feet,
  isOutside,
  nameOfZone,
  ofSystem,
  partPath,
  squareFeet,
  surface_ft2,
  withChangedParts,
  workAt,
} from './house-parts.ts';

const levels = [
  ['insulate-r6', 'R-6'],
  ['insulate-r8', 'R-8'],
  ['insulate-r11', 'R-11'],
] as const;

/** Insulation of a duct under blown insulation, by what code tables call deeply buried (from memory: ). */
const buried = 'R-25';

/** The house with parts insulated to at least a level; a wrap never takes insulation away. */
const insulated = (house: Job, system: string, parts: readonly string[], level: string): Job =>
  withChangedParts(house, system, parts, (part) => {
    const now = siOf(part.insulation, 'resistance');
    if (now !== undefined && now >= siOf(level, 'resistance')!) return part;
    // A sound jacket of plastic goes around new wrap.
    const { jacket: _, ...rest } = part;
    return { ...rest, insulation: level };
  });

/** Wraps by system and zone, burying in an attic, and bringing an attic inside; one of them for each zone. */
export const proposeInsulation = (survey: Survey): readonly Proposal[] => [
  ...survey.systems.flatMap((system) =>
    survey.zones
      .filter(({ id }) => isOutside(survey, id))
      .flatMap(({ id }) => [...wraps(survey, system, id), ...burying(survey, system, id)]),
  ),
  ...atticsInside(survey),
];

const partsIn = (system: AirSystem, zone: string): readonly DuctPart[] =>
  system.parts.filter((part) => part.zone === zone && !part.buildingCavity);

const claimOn = (system: AirSystem, zone: string): string => `insulation/${system.id}/${zone}`;

const wraps = (survey: Survey, system: AirSystem, zone: string): Proposal[] =>
  levels.flatMap(([repair, level]) => {
    const bare = partsIn(system, zone).filter(
      ({ insulation_m2KW }) => insulation_m2KW < siOf(level, 'resistance')! - 0.01,
    );
    // What already has nearly as much is not wrapped again.
    if (bare.every(({ insulation_m2KW }) => insulation_m2KW > siOf(level, 'resistance')! - 0.3)) return [];
    const ids = bare.map(({ id }) => id);
    return [
      {
        repair,
        place: `${system.id}-${zone}`,
        name: `Insulate ducts in the ${nameOfZone(survey, zone)} to ${level}${ofSystem(survey, system)}`,
        where: ids.map((id) => partPath(system.id, id)),
        work: workAt(survey, [{ zone, quantity: bare.reduce((sum, part) => sum + surface_ft2(part), 0) }]),
        claims: [claimOn(system, zone)],
        apply: (house: Job) => insulated(house, system.id, ids, level),
      },
    ];
  });

const burying = (survey: Survey, system: AirSystem, zone: string): Proposal[] => {
  const attic = survey.zones.find(({ id, kind }) => id === zone && kind === 'attic');
  const low = partsIn(system, zone).filter(({ role }) => role === 'run' || role === 'trunk');
  if (!attic || low.length === 0) return [];
  const ids = low.map(({ id }) => id);
  return [
    {
      repair: 'bury',
      place: `${system.id}-${zone}`,
      name: `Bury runs and trunks in insulation on the ${nameOfZone(survey, zone)} floor${ofSystem(survey, system)}`,
      where: ids.map((id) => partPath(system.id, id)),
      // A strip as wide as the duct and a foot to each side.
      work: workAt(survey, [{ zone, quantity: low.reduce((sum, part) => sum + 3 * feet(part.length_m), 0) }]),
      claims: [claimOn(system, zone)],
      apply: (house: Job) => insulated(house, system.id, ids, buried),
    },
  ];
};

const atticsInside = (survey: Survey): Proposal[] =>
  survey.zones.flatMap((zone) => {
    if (zone.kind !== 'attic' || zone.insideEnvelope) return [];
    const systems = survey.systems.filter((system) => partsIn(system, zone.id).length > 0);
    const roof = survey.surfaces.filter(({ inside, kind }) => inside === zone.id && kind === 'roof');
    const area_m2 = roof.reduce((sum, surface) => sum + surface.area_m2, 0);
    if (systems.length === 0 || area_m2 === 0) return [];
    return [
      {
        repair: 'attic-inside',
        place: zone.id,
        name: `Bring the ${nameOfZone(survey, zone.id)} inside the insulation`,
        where: [`zones/${zone.id}`],
        work: workAt(survey, [{ zone: zone.id, quantity: squareFeet(area_m2) }]),
        claims: systems.map((system) => claimOn(system, zone.id)),
        apply: (house: Job) => ({
          ...house,
          zones: house.zones!.map((each) => {
            if (each.id !== zone.id) return each;
            const { airChangeHeating: _, airChangeCooling: __, ventArea: ___, ...rest } = each;
            const surfaces = rest.surfaces?.map((surface) => {
              const { u: _u, ...plain } = surface;
              return surface.kind === 'roof' ? { ...plain, assembly: 'roof deck, R-30' } : surface;
            });
            return { ...rest, vented: false, insideEnvelope: true, ...(surfaces && { surfaces }) };
          }),
        }),
      },
    ];
  });
