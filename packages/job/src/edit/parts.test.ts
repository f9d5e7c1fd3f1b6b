import { account } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { area, at, drawnHouse, ft, ip, part, sound } from './drawn-house.ts';
import {
  copy,
  deletePart,
  EditRefused,
  fittingsFor,
  movePartPoint,
  partsIn,
  paste,
  setMany,
  setRegister,
} from './index.ts';
import { siOf } from './typed-text.ts';

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

  test('a run that is handed on comes the way of the trunk that is gone, and is as long as that makes it', () => {
    const job = drawnHouse();
    const rejoined = sound(deletePart(job, 'main', 'trunk', { children: 'rejoin', ...ip }));
    // The trunk began at (9, 7) and the run left it at (14, 7) to (14, 13), with 2 ft of rises.
    expect(part(rejoined, 'run-living').path).toEqual(['9 ft, 7 ft', '14 ft, 7 ft', '14 ft, 13 ft']);
    expect(siOf(part(rejoined, 'run-living').length, 'length')! / ft).toBeCloseTo(5 + 6 + 2, 2);
    expect(part(rejoined, 'run-living').at).toBeUndefined();
    const onHandler = sound(deletePart(rejoined, 'main', 'plenum', { children: 'rejoin', ...ip }));
    expect(part(onHandler, 'run-living').path![0]).toBe('6 ft, 7 ft');
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
