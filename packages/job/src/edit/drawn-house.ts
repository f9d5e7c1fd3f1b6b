import { readFileSync } from 'node:fs';
import type { PlanPoint } from '@airledger/engine';
import { readJob } from '../read-job.ts';
import type { Job, JobSystem } from '../schema/job-schema.ts';
import {
  addDoor,
  addPart,
  addRoom,
  addSystem,
  addZone,
  insertOnTrunk,
  newJob,
  setRegister,
} from './index.ts';
import { siOf } from './typed-text.ts';

/** Texts in inches and feet. */
export const ip = { units: 'ip' } as const;
/** A foot in metres. */
export const ft = 0.3048;
/** Point of the plan, in feet. */
export const at = (x: number, y: number): PlanPoint => [x * ft, y * ft];
/** A rectangle by its south-west corner, in feet. */
export const floor = (x: number, y: number, width: number, depth: number) => ({
  corner_m: at(x, y),
  width_m: width * ft,
  depth_m: depth * ft,
});

/** The job, when it reads without errors. */
export const sound = (job: Job): Job => {
  const read = readJob(job);
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return job;
};
/** A demo house as typed: 1 to 3. */
export const demo = (number: number): Job => {
  const name = ['1-quail-run-lane', '2-tamarack-bend', '3-alder-ferry-road'][number - 1];
  return JSON.parse(
    readFileSync(new URL(`../../../../demo/${name}.airledger.json`, import.meta.url), 'utf8'),
  );
};

/** A living room and a bedroom side by side, drawn from nothing. */
export const twoRooms = (): Job =>
  addRoom(
    newJob(
      {
        name: 'House',
        station: 'houston',
        room: { id: 'living', use: 'living', floor: floor(0, 0, 20, 15) },
      },
      ip,
    ),
    { id: 'bedroom', use: 'bedroom', floor: floor(20, 0, 12, 10) },
    ip,
  );

/** Area of a surface, ft². */
export const area = (job: Job, room: string, surface: string): number | undefined => {
  const found = job.rooms.find((each) => each.id === room)?.surfaces?.find((each) => each.id === surface);
  const value = siOf(found?.area, 'area');
  return value === undefined ? undefined : value / ft ** 2;
};

const heatPump: JobSystem = {
  id: 'main',
  thermostatRoom: 'living',
  equipment: {
    kind: 'heat pump',
    heating: { output: '24000 Btu/h' },
    cooling: { total: '2 tons' },
  },
  airHandler: { zone: 'attic' },
  parts: [],
};

/** Two rooms below an attic, a plenum, a trunk, two runs and a return, all drawn. */
export const drawnHouse = (): Job => {
  let job = addZone(twoRooms(), { id: 'attic', kind: 'attic' }, ip);
  job = addDoor(job, { id: 'door', between: ['living', 'bedroom'], open: true });
  job = addSystem(job, heatPump);
  const duct = { side: 'supply', zone: 'attic', storey: 1 } as const;
  job = addPart(
    job,
    'main',
    {
      ...duct,
      id: 'plenum',
      role: 'plenum',
      joins: 'air-handler',
      section: '14 in x 14 in',
      path_m: [at(6, 7), at(9, 7)],
    },
    ip,
  );
  job = addPart(
    job,
    'main',
    {
      ...duct,
      id: 'trunk',
      role: 'trunk',
      joins: 'plenum',
      section: '12 in x 8 in',
      path_m: [at(9, 7), at(25, 7)],
    },
    ip,
  );
  job = insertOnTrunk(
    job,
    'main',
    {
      ...duct,
      id: 'run-living',
      role: 'run',
      section: '8 in',
      path_m: [at(14, 7.2), at(14, 13)],
      rises_m: 2 * ft,
    },
    ip,
  );
  job = setRegister(job, 'main', 'run-living', { id: 'register-living', face: '12 in x 6 in' });
  job = insertOnTrunk(
    job,
    'main',
    { ...duct, id: 'run-bedroom', role: 'run', section: '6 in', path_m: [at(25, 7), at(25, 3), at(29, 3)] },
    ip,
  );
  job = setRegister(job, 'main', 'run-bedroom', { id: 'register-bedroom', face: '10 in x 4 in' });
  job = addPart(
    job,
    'main',
    {
      ...duct,
      side: 'return',
      id: 'return',
      role: 'run',
      joins: 'air-handler',
      section: '14 in',
      path_m: [at(5, 7), at(2, 7)],
    },
    ip,
  );
  return setRegister(job, 'main', 'return', { id: 'grille', face: '20 in x 20 in' });
};
/** Part of the first system. */
export const part = (job: Job, id: string) => job.systems![0]!.parts.find((each) => each.id === id)!;
