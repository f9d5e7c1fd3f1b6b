import type { CodeChoice, LeakageTest, Survey } from '@airledger/engine';
import { leakageEvidence } from '../readings/leakage-evidence.ts';
import type { Job } from '../schema/job-schema.ts';
import { applyState, stateIds } from '../states/apply-state.ts';
import { doorsOf, transfersOf, ventilatorsOf } from './openings.ts';
import { bareRoom, bedroomsOf, houseFrom, roomsFrom } from './rooms.ts';
import { seasonFrom } from './season.ts';
import { indoorOf, siteOf } from './site.ts';
import { surfacesOf } from './surfaces.ts';
import { type Sample, type Surveyor, surveyor, usually } from './surveyor.ts';
import { systemFrom } from './systems.ts';
import { zoneFrom } from './zones.ts';

const testsOf = (job: Job, survey: Surveyor): readonly LeakageTest[] =>
  (job.leakageTests ?? []).map((test) => ({
    id: test.id,
    system: test.system,
    stage: test.stage,
    place: test.place,
    side: test.side ?? 'both',
    flow25_m3s: survey.required(`leakageTests/${test.id}/flow`, test.flow, 'airflow'),
    howKnown: test.known ?? (typeof test.flow === 'object' ? test.flow.known : undefined) ?? 'measured',
  }));

const codeOf = (job: Job, survey: Surveyor, stationZone: string | undefined): CodeChoice => {
  const code = job.code ?? {};
  const climateZone = code.climateZone ?? stationZone;
  return {
    edition: survey.word(
      'code/edition',
      code.edition,
      'IECC 2018',
      'no edition stated; ask the building department',
    ),
    ...(climateZone !== undefined && { climateZone }),
    supplyLeakageLimit: survey.quantity(
      'code/supplyLeakageLimit',
      code.supplyLeakageLimit,
      'ratio',
      usually('code.limit'),
    ),
    returnLeakageLimit: survey.quantity(
      'code/returnLeakageLimit',
      code.returnLeakageLimit,
      'ratio',
      usually('code.limit'),
    ),
  };
};

/**
 * A job in one of its states as a survey: SI units, every default filled in and on record in `facts`.
 * `job` must have passed `readJob`; `stateId` defaults to the last state. `sample` draws a value for each field that
 * has a range, by its path, and makes one house of a Monte Carlo run. Pure; throws on a state that is not there and
 * on a text that `readJob` would have refused.
 */
export const surveyOf = (job: Job, stateId: string = stateIds(job).at(-1)!, sample?: Sample): Survey => {
  const house = applyState(job, stateId);
  const survey = surveyor(house.known ?? 'estimated', sample);
  const ceiling = house.house?.ceilingHeight;
  const ceilingHeight = survey.quantity(
    'house/ceilingHeight',
    ceiling,
    'length',
    usually('house.ceilingHeight'),
  );
  const bare = house.rooms.map((room) =>
    bareRoom(room, { value: ceilingHeight, source: 'ceiling height of the house' }, survey),
  );
  const roomSurfaces = house.rooms.flatMap((room, i) =>
    surfacesOf(
      { path: `rooms/${room.id}`, id: room.id, floorArea_m2: bare[i]!.floorArea_m2 },
      room.surfaces ?? [],
      survey,
    ),
  );
  const outsideZones = new Set(
    (house.zones ?? []).filter((zone) => !zone.insideEnvelope).map((zone) => zone.id),
  );
  const bedrooms = bedroomsOf(house);
  const rooms = roomsFrom(house, bare, roomSurfaces, outsideZones, bedrooms, survey);
  const zones = (house.zones ?? []).map((zone) => zoneFrom(zone, rooms, survey));
  const { site, climateZone } = siteOf(house, survey);
  const indoor = indoorOf(house, survey);
  const systems = (house.systems ?? []).map((system) => systemFrom(system, survey));
  const surveyed: Survey = {
    name: house.name,
    state: stateId,
    site,
    indoor,
    house: houseFrom(house, bare, roomSurfaces, outsideZones, survey),
    rooms,
    zones: zones.map(({ zone }) => zone),
    surfaces: [...roomSurfaces, ...zones.flatMap((zone) => zone.surfaces)],
    doors: doorsOf(house, survey),
    transfers: transfersOf(house, survey),
    systems,
    ventilators: ventilatorsOf(house, survey),
    leakageTests: testsOf(house, survey),
    code: codeOf(house, survey, climateZone),
    season: seasonFrom(house, indoor, systems, survey),
    facts: survey.facts,
  };
  const evidence = leakageEvidence(job, surveyed);
  return evidence.length === 0
    ? surveyed
    : { ...surveyed, leakageTests: [...surveyed.leakageTests, ...evidence] };
};
