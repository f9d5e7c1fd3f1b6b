import { formatQuantity } from '@airledger/engine';
import { describe, expect, test } from 'vitest';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { isDrawn } from './drawn.ts';
import { at, demo, drawnHouse, ip, part, sound } from './drawn-house.ts';
import {
  addDoor,
  addState,
  deletePart,
  editState,
  insertOnTrunk,
  movePartPoint,
  partsIn,
  setMany,
  setRegister,
  takeBackChange,
} from './index.ts';
import { siOf } from './typed-text.ts';

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
