import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { area, at, demo, drawnHouse, floor, ft, ip, part, sound, twoRooms } from './drawn-house.ts';
import {
  addRoom,
  addWindow,
  addZone,
  deleteRoom,
  deleteZone,
  EditRefused,
  moveRoomCorner,
  moveRoomEdge,
  newJob,
  resizeRoom,
  roomsBeside,
  setMany,
  wallAt,
} from './index.ts';
import { siOf } from './typed-text.ts';

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
