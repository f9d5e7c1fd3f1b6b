import { addZone, type Job, newJob } from '@airledger/job';
import { describe, expect, it } from 'vitest';
import { usualOptions } from '../draw-options.ts';
import type { Place, Tool, ToolContext, ToolEvent } from '../tool.ts';
import { airHandler } from './air-handler.ts';
import { run, trunk } from './duct.ts';
import { roomRectangle } from './room-rectangle.ts';

const writing = { units: 'si' } as const;
const first = newJob(
  {
    name: 'House',
    station: 'Houston',
    room: { id: 'hall', floor: { corner_m: [0, 0], width_m: 8, depth_m: 5 } },
  },
  writing,
);
const house = addZone(first, { id: 'attic', kind: 'attic' }, writing);

const place = (x: number, y: number): Place => ({ raw: [x, y], at: [x, y], on: 'grid' });
const press = (x: number, y: number): ToolEvent => ({ kind: 'press', place: place(x, y) });

/** Plays events to a tool on a job; the job as it is then, and the last note. */
const play = <State>(tool: Tool<State>, job: Job, events: readonly ToolEvent[]) => {
  let state = tool.start;
  let now = job;
  let note: string | undefined;
  for (const event of events) {
    const context: ToolContext = {
      job: now,
      storey: 1,
      writing,
      reach_m: 0.2,
      options: usualOptions,
      selection: [],
    };
    const step = tool.on(state, event, context);
    state = step.state;
    note = step.note;
    if (step.deed) now = step.deed.change(now);
  }
  return { job: now, note };
};

describe('drawing tools', () => {
  it('draws a room by two clicks, and by a corner and typed sizes', () => {
    const clicked = play(roomRectangle, house, [press(8, 0), press(12, 3)]).job;
    expect(clicked.rooms[1]).toMatchObject({ id: 'bedroom', corner: '8 m, 0 m', size: '4 m x 3 m' });
    const typed = play(roomRectangle, house, [
      press(8, 0),
      { kind: 'typed', values: [4, 3], place: place(9, 1) },
    ]).job;
    expect(typed.rooms[1]).toMatchObject({ corner: '8 m, 0 m', size: '4 m x 3 m' });
  });

  it('drops an unfinished room on cancel, and draws no slip of the hand', () => {
    const { job } = play(roomRectangle, house, [press(8, 0), { kind: 'cancel' }, press(9, 0), press(9.1, 2)]);
    expect(job.rooms).toHaveLength(1);
  });

  it('draws air handler, trunk and run, turned round when the run is drawn towards its trunk', () => {
    const equipped = play(airHandler, house, [press(1, 1)]).job;
    const trunked = play(trunk, equipped, [press(1, 1), press(6, 1), press(6, 1)]).job;
    const { job } = play(run, trunked, [press(4, 4), press(4, 1), press(4, 1)]);
    expect(job.systems?.[0]?.parts[0]).toMatchObject({ role: 'trunk', joins: 'air-handler' });
    expect(job.systems?.[0]?.parts[1]).toMatchObject({
      role: 'run',
      joins: 'supply-trunk',
      path: ['4 m, 1 m', '4 m, 4 m'],
      terminal: { room: 'hall' },
    });
  });

  it('says why no run is drawn', () => {
    expect(play(run, house, [press(4, 4), press(4, 1), press(4, 1)]).note).toMatch(/air handler first/);
  });
});
