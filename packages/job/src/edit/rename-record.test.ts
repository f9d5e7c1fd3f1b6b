import { describe, expect, test } from 'vitest';
import type { Job } from '../schema/job-schema.ts';
import { applyState } from '../states/apply-state.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { demo, sound } from './drawn-house.ts';
import { EditRefused } from './edit-refused.ts';
import { editState } from './edit-state.ts';
import { renameRecord } from './rename-record.ts';

const quail = demo(1);
const states = ['as-found', 'as-specified'] as const;

/** All numbers and switches of a house in all its states, without a name of anything. */
const figures = (job: Job): unknown =>
  JSON.parse(
    JSON.stringify(
      states.map((state) => surveyOf(job, state)),
      (key, value) => (key === 'facts' || typeof value === 'string' ? undefined : value),
    ),
  );

describe('a record under another id', () => {
  test.each([
    ['doors/door-bedroom-3', 'door-bedroom-3', 'door-east'],
    ['systems/main/parts/run-bedroom-3', 'run-bedroom-3', 'run-east'],
    ['rooms/bedroom-3', 'bedroom-3', 'east-bedroom'],
  ])('%s is the same house in every state', (path, from, to) => {
    const { job, path: now } = renameRecord(quail, path, from, to);
    expect(now).toBe(path.replace(from, to));
    sound(job);
    const text = JSON.stringify(job);
    expect(text).not.toContain(`"${from}"`);
    expect(text).not.toContain(`${path}/`);
    expect(figures(job)).toEqual(figures(quail));
  });

  test('a register keeps its duct; changes of later states still reach what they changed', () => {
    const part = quail.systems![0]!.parts.find(({ id }) => id === 'run-bedroom-3')!;
    const path = 'systems/main/parts/run-bedroom-3/terminal';
    const { job, path: now } = renameRecord(quail, path, part.terminal!.id, 'east-register');
    expect(now).toBe(path);
    sound(job);
    const found = (state: string) =>
      surveyOf(job, state).systems[0]!.parts.find(({ id }) => id === 'run-bedroom-3')!.terminal!;
    expect(found('as-found').id).toBe('east-register');
    expect(found('as-specified').id).toBe('east-register');
  });

  test('a change of it in a later state is still a change of it', () => {
    const edited = editState(quail, 'as-specified', (house) => ({
      ...house,
      doors: house.doors!.map((door) =>
        door.id === 'door-bedroom-3' ? { ...door, undercut: '2 in' } : door,
      ),
    }));
    const { job } = renameRecord(edited, 'doors/door-bedroom-3', 'door-bedroom-3', 'door-east');
    const undercut = (state: string) =>
      applyState(job, state).doors!.find(({ id }) => id === 'door-east')!.undercut;
    expect(undercut('as-specified')).toBe('2 in');
    expect(undercut('as-found')).not.toBe('2 in');
  });

  test('a window is known by its new name to its room only, and photos of it follow', () => {
    const room = quail.rooms.find(({ id }) => id === 'bedroom-3')!;
    const wall = room.surfaces!.find(({ id }) => room.surfaces!.some((each) => each.in === id))!;
    const photographed: Job = {
      ...quail,
      photos: [{ id: 'photo', sha256: '0'.repeat(64), of: `rooms/bedroom-3/surfaces/${wall.id}` }],
    };
    const { job } = renameRecord(photographed, `rooms/bedroom-3/surfaces/${wall.id}`, wall.id, 'front');
    sound(job);
    const now = job.rooms.find(({ id }) => id === 'bedroom-3')!.surfaces!;
    expect(now.filter((each) => each.in === 'front')).toHaveLength(
      room.surfaces!.filter((each) => each.in === wall.id).length,
    );
    expect(job.rooms.filter(({ id }) => id !== 'bedroom-3')).toEqual(
      quail.rooms.filter(({ id }) => id !== 'bedroom-3'),
    );
    expect(job.photos![0]!.of).toBe('rooms/bedroom-3/surfaces/front');
  });

  test('what is no id is refused, with one that would do', () => {
    expect(() => renameRecord(quail, 'rooms/bedroom-3', 'bedroom-3', 'East bedroom')).toThrow(EditRefused);
    expect(() => renameRecord(quail, 'rooms/bedroom-3', 'bedroom-3', 'East bedroom')).toThrow(/east-bedroom/);
  });
});
