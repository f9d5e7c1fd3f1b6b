import { readFileSync } from 'node:fs';
import { account, formatQuantity, type PlanPoint } from '@airledger/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJob } from '../read-job.ts';
import type { Job, JobSystem } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { isDrawn } from './drawn.ts';
import {
  addDoor,
  addPart,
  addRoom,
  addState,
  addSystem,
  addWindow,
  addZone,
  copy,
  deletePart,
  deleteRoom,
  deleteZone,
  EditRefused,
  editState,
  fittingsFor,
  insertOnTrunk,
  lengthText,
  movePartPoint,
  moveRoomCorner,
  moveRoomEdge,
  newJob,
  partsIn,
  paste,
  resizeRoom,
  roomsBeside,
  setMany,
  setRegister,
  takeBackChange,
  uniqueId,
  wallAt,
} from './index.ts';
import { siOf } from './typed-text.ts';

const ip = { units: 'ip' } as const;
const ft = 0.3048;
const at = (x: number, y: number): PlanPoint => [x * ft, y * ft];
const floor = (x: number, y: number, width: number, depth: number) => ({
  corner_m: at(x, y),
  width_m: width * ft,
  depth_m: depth * ft,
});

const sound = (job: Job): Job => {
  const read = readJob(job);
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return job;
};
const demo = (number: number): Job => {
  const name = ['1-quail-run-lane', '2-tamarack-bend', '3-alder-ferry-road'][number - 1];
  return JSON.parse(
    readFileSync(new URL(`../../../../demo/${name}.airledger.json`, import.meta.url), 'utf8'),
  );
};

const twoRooms = (): Job =>
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

const area = (job: Job, room: string, surface: string): number | undefined => {
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
const drawnHouse = (): Job => {
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
const part = (job: Job, id: string) => job.systems![0]!.parts.find((each) => each.id === id)!;

describe('ids and texts', () => {
  test('an id counts on from the name it is given', () => {
    const job = demo(1);
    expect(uniqueId(job, 'Bedroom 2')).toBe('bedroom-4');
    expect(uniqueId(job, 'Süd-Zimmer')).toBe('sud-zimmer');
    expect(uniqueId(job, 'outdoors')).toBe('outdoors-2');
    expect(uniqueId(job, 'run-bedroom-3', ['run-bedroom-4'])).toBe('run-bedroom-5');
    // Ids of records that only a state adds are taken too.
    expect(uniqueId(job, 'transfer-study')).toBe('transfer-study-2');
  });

  test('a length reads back within half of its last digit, in either unit system', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), fc.constantFrom('ip', 'si'), (m, units) => {
        const back = siOf(lengthText(m, units as 'ip' | 'si'), 'length')!;
        expect(Math.abs(back - m)).toBeLessThanOrEqual(units === 'ip' ? 0.00128 : 0.000501);
      }),
    );
    expect(lengthText(12.5 * ft, 'ip')).toBe('12 ft 6 in');
    expect(lengthText(0, 'ip')).toBe('0 ft');
  });
});

describe('rooms', () => {
  test('walls follow from two outlines side by side', () => {
    const job = sound(twoRooms());
    expect(area(job, 'living', 'south-wall')).toBeCloseTo(160, 1);
    expect(area(job, 'living', 'west-wall')).toBeCloseTo(120, 1);
    // Ten of the fifteen feet of its east side are shared with the bedroom.
    expect(area(job, 'living', 'east-wall')).toBeCloseTo(40, 1);
    expect(area(job, 'living', 'to-bedroom')).toBeCloseTo(80, 1);
    expect(area(job, 'bedroom', 'to-living')).toBeUndefined();
    expect(area(job, 'bedroom', 'west-wall')).toBeUndefined();
    const slab = job.rooms[0]!.surfaces!.find((each) => each.id === 'slab')!;
    expect(siOf(slab.edge, 'length')! / ft).toBeCloseTo(20 + 20 + 15 + 5, 1);
  });

  test('a clockwise outline and a gap as thick as a wall give the same walls', () => {
    const clockwise = newJob(
      {
        name: 'House',
        station: 'houston',
        room: { id: 'living', floor: { outline_m: [at(0, 0), at(0, 15), at(20, 15), at(20, 0)] } },
      },
      ip,
    );
    const job = addRoom(clockwise, { id: 'bedroom', floor: floor(20.4, 0, 12, 10) }, ip);
    expect(area(job, 'living', 'to-bedroom')).toBeCloseTo(80, 1);
    expect(area(job, 'living', 'south-wall')).toBeCloseTo(160, 1);
  });

  test('a slanted wall faces where it faces', () => {
    const job = newJob(
      {
        name: 'House',
        station: 'houston',
        room: { id: 'tower', floor: { outline_m: [at(0, 0), at(10, 0), at(0, 10)] } },
      },
      ip,
    );
    expect(job.rooms[0]!.surfaces!.filter((each) => each.kind === 'wall').map((each) => each.facing)).toEqual(
      ['south', 'northeast', 'west'],
    );
  });

  test('what is said of a wall, and its windows, stay when a corner or edge moves', () => {
    let job = setMany(twoRooms(), ['rooms/living/surfaces/south-wall/assembly'], '2x6 wall, R-19');
    job = addWindow(job, 'living', {
      id: 'window',
      in: wallAt(job, 'living', at(10, 0.3))!,
      size: '4 ft x 4 ft',
    });
    job = moveRoomEdge(job, 'living', 0, at(0, -5), ip);
    expect(area(job, 'living', 'south-wall')).toBeCloseTo(160, 1);
    expect(area(job, 'living', 'west-wall')).toBeCloseTo(160, 1);
    const wall = job.rooms[0]!.surfaces!.find((each) => each.id === 'south-wall')!;
    expect(wall.assembly).toBe('2x6 wall, R-19');
    expect(job.rooms[0]!.surfaces!.find((each) => each.id === 'window')?.in).toBe('south-wall');
    sound(job);
  });

  test('a wall typed by hand is no longer measured on the drawing', () => {
    const typed = setMany(twoRooms(), ['rooms/living/surfaces/south-wall/area'], '150 ft²');
    const wider = resizeRoom(typed, 'bedroom', { width_m: 12 * ft, depth_m: 15 * ft }, ip);
    const job = moveRoomCorner(wider, 'living', 0, at(-4, 0), ip);
    expect(area(job, 'living', 'south-wall')).toBeCloseTo(150, 6);
    expect(area(job, 'living', 'to-bedroom')).toBeCloseTo(120, 1);
  });

  test('rooms above, an attic and a basement take ceilings and floors by their overlap', () => {
    let job = addRoom(twoRooms(), { id: 'loft', storey: 2, floor: floor(0, 0, 10, 15) }, ip);
    job = addZone(job, { id: 'attic', kind: 'attic' }, ip);
    job = addZone(
      job,
      { id: 'basement', kind: 'basement', outline_m: [at(0, 0), at(20, 0), at(20, 15), at(0, 15)] },
      ip,
    );
    sound(job);
    expect(area(job, 'living', 'below-loft')).toBeCloseTo(150, 0);
    expect(area(job, 'living', 'ceiling')).toBeCloseTo(150, 0);
    expect(area(job, 'living', 'floor-over-basement')).toBeCloseTo(300, 0);
    expect(area(job, 'bedroom', 'slab')).toBeCloseTo(120, 0);
    expect(area(job, 'loft', 'ceiling')).toBeCloseTo(150, 0);
    const without = deleteZone(job, 'attic', ip);
    expect(sound(without).rooms[2]!.surfaces!.find((each) => each.id === 'ceiling')!.beyond).toBe('outdoors');
  });

  test('the outside of a tiled rectangle is its girth, however it is cut', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 35 }), fc.integer({ min: 5, max: 25 }), (x, y) => {
        let job = newJob(
          { name: 'House', station: 'houston', room: { id: 'a', floor: floor(0, 0, x, 30) } },
          ip,
        );
        job = addRoom(job, { id: 'b', floor: floor(x, 0, 40 - x, y) }, ip);
        job = addRoom(job, { id: 'c', floor: floor(x, y, 40 - x, 30 - y) }, ip);
        const walls = job.rooms.flatMap((room) => room.surfaces!.filter((each) => each.kind === 'wall'));
        const sum = walls.reduce((total, wall) => total + siOf(wall.area, 'area')!, 0) / ft ** 2;
        expect(sum).toBeCloseTo(140 * 8, 0);
      }),
      { numRuns: 25 },
    );
  });

  test('a house typed by hand keeps its surfaces', () => {
    const job = demo(1);
    expect(moveRoomCorner(job, 'study', 0, at(20, 17.5), ip).rooms[1]!.surfaces).toEqual(
      job.rooms[1]!.surfaces,
    );
  });

  test('a room goes with its doors and partitions, and not while ducts need it', () => {
    const job = drawnHouse();
    expect(() => deleteRoom(job, 'living', ip)).toThrow(EditRefused);
    expect(() => deleteRoom(job, 'bedroom', ip)).toThrow(/run-bedroom/);
    const less = sound(deleteRoom(job, 'bedroom', { ...ip, withRegisters: true }));
    expect(less.doors).toEqual([]);
    expect(area(less, 'living', 'east-wall')).toBeCloseTo(120, 1);
    expect(part(less, 'run-bedroom')).toBeUndefined();
  });

  test('a door finds the two rooms on either side of a wall', () => {
    expect(roomsBeside(twoRooms(), at(20.5, 5), 1)).toEqual(['living', 'bedroom']);
    expect(roomsBeside(twoRooms(), at(20, 13), 1)).toBeUndefined();
  });
});

describe('ducts', () => {
  test('a house drawn from nothing is sound and solves', () => {
    const job = sound(drawnHouse());
    const done = account(surveyOf(job), 'cooling');
    expect(done.rooms.every((room) => room.delivered_m3s > 0)).toBe(true);
  });

  test('lengths are measured on the drawing with rises, takeoffs along the trunk', () => {
    const job = drawnHouse();
    expect(siOf(part(job, 'run-living').length, 'length')! / ft).toBeCloseTo(8, 2);
    expect(siOf(part(job, 'run-living').at, 'length')! / ft).toBeCloseTo(5, 2);
    expect(part(job, 'run-living').joins).toBe('trunk');
    expect(part(job, 'run-bedroom').at).toBeUndefined();
    expect(part(job, 'run-living').terminal!.room).toBe('living');
  });

  test('fittings are proposed from takeoff, bends and register', () => {
    expect(fittingsFor(drawnHouse(), 'main', 'run-bedroom').map(({ name, count }) => [name, count])).toEqual([
      ['plain takeoff 90°', 1],
      ['elbow 90° flex, smooth, r/D 1 to 1.5', 1],
      ['boot, straight', 1],
    ]);
  });

  test('a new register brings its boot, another one does not bring a second', () => {
    const boots = (job: Job) => part(job, 'run-living').fittings!.filter((each) => /boot/.test(String(each)));
    expect(boots(drawnHouse())).toEqual(['boot, straight']);
    const again = setRegister(drawnHouse(), 'main', 'run-living', {
      id: 'register-living',
      face: '14 in x 6 in',
    });
    expect(boots(again)).toEqual(['boot, straight']);
  });

  test('a dragged trunk takes its runs along; typed lengths stay', () => {
    const typed = setMany(drawnHouse(), ['systems/main/parts/run-bedroom/length'], '9 ft');
    const job = sound(movePartPoint(typed, 'main', 'trunk', 1, at(25, 9), ip));
    expect(part(job, 'run-bedroom').path![0]).toBe('25 ft, 9 ft');
    expect(part(job, 'run-bedroom').length).toBe('9 ft');
    expect(siOf(part(job, 'trunk').length, 'length')! / ft).toBeCloseTo(Math.hypot(16, 2), 2);
    // A third of the way along, as before.
    const share = siOf(part(job, 'run-living').at, 'length')! / siOf(part(job, 'trunk').length, 'length')!;
    expect(share).toBeCloseTo(5 / 16, 3);
  });

  test('a register dragged over another room serves that room', () => {
    const job = movePartPoint(drawnHouse(), 'main', 'run-bedroom', 2, at(10, 3), ip);
    expect(part(job, 'run-bedroom').terminal!.room).toBe('living');
  });

  test('a dragged takeoff slides along its trunk', () => {
    const job = sound(movePartPoint(drawnHouse(), 'main', 'run-living', 0, at(20, 8), ip));
    expect(siOf(part(job, 'run-living').at, 'length')! / ft).toBeCloseTo(11, 2);
    expect(part(job, 'run-living').path![0]).toBe('20 ft, 7 ft');
  });

  test('deleting a trunk is refused, takes its runs, or hands them on', () => {
    const job = drawnHouse();
    expect(() => deletePart(job, 'main', 'trunk')).toThrow(/run-living, run-bedroom hang/);
    expect(
      deletePart(job, 'main', 'trunk', { children: 'delete' }).systems![0]!.parts.map((p) => p.id),
    ).toEqual(['plenum', 'return']);
    const rejoined = sound(deletePart(job, 'main', 'trunk', { children: 'rejoin' }));
    expect(part(rejoined, 'run-living').joins).toBe('plenum');
  });

  test('many at once', () => {
    const job = setMany(
      drawnHouse(),
      partsIn(drawnHouse(), { zone: 'attic', role: 'run', side: 'supply' }).map(
        (path) => `${path}/insulation`,
      ),
      'R-8',
    );
    expect(job.systems![0]!.parts.map((each) => each.insulation)).toEqual([
      undefined,
      undefined,
      'R-8',
      'R-8',
      undefined,
    ]);
    expect(() => setMany(job, ['systems/main/parts/none/insulation'], 'R-8')).toThrow(EditRefused);
  });

  test('copies have their own ids and lead to their own copies', () => {
    const job = drawnHouse();
    const clip = copy(job, { rooms: ['bedroom'], system: 'main', parts: ['run-bedroom'] });
    const twice = sound(paste(job, clip, { by: at(0, 10.01), system: 'main', ...ip }));
    expect(twice.rooms.map((room) => room.id)).toEqual(['living', 'bedroom', 'bedroom-2']);
    expect(part(twice, 'run-bedroom-2').terminal).toMatchObject({
      id: 'register-bedroom-2',
      room: 'bedroom-2',
    });
    expect(area(twice, 'bedroom', 'to-bedroom-2')).toBeCloseTo(96, 0);
  });
});

describe('states', () => {
  const specified = (): Job => addState(drawnHouse(), { id: 'as-specified', name: 'As specified' });
  const changesOf = (job: Job) => job.states![1]!.changes;

  test('an edit in a later state is a list of changes, and one typed back leaves none', () => {
    const job = specified();
    const edit = (value: string) => (house: Job) =>
      setMany(house, ['systems/main/parts/run-living/insulation'], value);
    const insulated = editState(job, 'as-specified', edit('R-8'));
    expect(changesOf(insulated)).toEqual([{ set: 'systems/main/parts/run-living/insulation', to: 'R-8' }]);
    expect(part(insulated, 'run-living').insulation).toBeUndefined();
    const back = editState(insulated, 'as-specified', (house) =>
      setMany(house, ['systems/main/parts/run-living/insulation'], undefined),
    );
    expect(changesOf(back)).toEqual([]);
  });

  test('a run added, dragged and deleted again in a state leaves nothing', () => {
    const added = editState(specified(), 'as-specified', (house) =>
      setRegister(
        insertOnTrunk(
          house,
          'main',
          {
            id: 'run-more',
            side: 'supply',
            role: 'run',
            section: '5 in',
            zone: 'attic',
            path_m: [at(18, 7), at(18, 2)],
          },
          ip,
        ),
        'main',
        'run-more',
        { id: 'register-more', face: '10 in x 4 in' },
      ),
    );
    sound(added);
    expect(changesOf(added)).toHaveLength(1);
    const dragged = editState(added, 'as-specified', (house) =>
      movePartPoint(house, 'main', 'run-more', 1, at(18, 1), ip),
    );
    expect(changesOf(dragged)).toHaveLength(1);
    expect(part(applyState(dragged, 'as-specified'), 'run-more').path![1]).toBe('18 ft, 1 ft');
    const gone = editState(dragged, 'as-specified', (house) => deletePart(house, 'main', 'run-more'));
    expect(changesOf(gone)).toEqual([]);
  });

  test('what the first state loses, later states no longer change; their other changes stay', () => {
    const job = editState(specified(), 'as-specified', (house) =>
      setMany(
        house,
        partsIn(house, { role: 'run' }).map((path) => `${path}/insulation`),
        'R-8',
      ),
    );
    expect(changesOf(job)).toHaveLength(3);
    const less = sound(editState(job, 'as-found', (house) => deletePart(house, 'main', 'run-bedroom')));
    expect(changesOf(less)).toHaveLength(2);
    expect(changesOf(takeBackChange(less, 'as-specified', 0))).toHaveLength(1);
  });

  test('an edit of any demo house in any state gives that state exactly the edited house', () => {
    for (const number of [1, 2, 3]) {
      const job = demo(number);
      for (const state of job.states!.map((each) => each.id)) {
        const house = applyState(job, state);
        const system = house.systems![0]!.id;
        const run = house.systems![0]!.parts.find((each) => each.role === 'run' && each.side === 'supply')!;
        const edit = (before: Job): Job =>
          deletePart(
            setMany(
              before,
              partsIn(before, { role: 'run' }).map((path) => `${path}/damper`),
              '80 %',
            ),
            system,
            run.id,
            { children: 'delete' },
          );
        const edited = editState(job, state, edit);
        expect(applyState(edited, state)).toEqual(edit(house));
        const later = edited.states!.map((each) => each.id);
        for (const each of later) expect(() => applyState(edited, each)).not.toThrow();
      }
    }
  });

  test('an edit of the first state is made in the house, unless that state already says otherwise', () => {
    const path = 'systems/main/parts/run-living/insulation';
    const job = specified();
    const first = { ...job.states![0]!, changes: [{ set: path, to: 'R-2' }] };
    const said: Job = { ...job, states: [first, job.states![1]!] };
    const edited = editState(said, 'as-found', (house) =>
      setMany(setMany(house, [path], 'R-6'), ['systems/main/parts/run-bedroom/insulation'], 'R-4'),
    );
    expect(edited.states![0]!.changes).toEqual([{ set: path, to: 'R-6' }]);
    expect(part(edited, 'run-bedroom').insulation).toBe('R-4');
    expect(part(edited, 'run-living').insulation).toBeUndefined();
    const more = editState(edited, 'as-found', (house) =>
      addDoor(house, { id: 'door-2', between: ['living', 'bedroom'] }),
    );
    expect(more.doors!.map((door) => door.id)).toEqual(['door', 'door-2']);
  });

  test('no edit touches the job it is given', () => {
    const job = specified();
    const before = JSON.stringify(job);
    editState(job, 'as-specified', (house) => movePartPoint(house, 'main', 'trunk', 1, at(25, 9), ip));
    expect(JSON.stringify(job)).toBe(before);
    expect(isDrawn(part(job, 'trunk').length)).toBe(true);
    expect(formatQuantity(siOf(part(job, 'trunk').length, 'length')!, 'length', 'ip')).toBe('16.0 ft');
  });
});
