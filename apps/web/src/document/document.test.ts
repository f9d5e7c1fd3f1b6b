import { readFileSync } from 'node:fs';
import { type Job, lengthText } from '@airledger/job';
import { beforeEach, expect, test, vi } from 'vitest';
import { openJob } from '../worker/open-job.ts';
import { surveyStates } from './survey-states.ts';

vi.mock('../worker/engine-client.ts', () => ({ engine: {}, patientEngine: {} }));
vi.stubGlobal('window', { matchMedia: () => ({ matches: true }) });
vi.stubGlobal('localStorage', { getItem: () => 'Ada', setItem: () => undefined });
const { canRedo, canUndo, edit, editTyped, endGesture, redo, undo } = await import('./document.ts');
const { showJob } = await import('./show-job.ts');
const { useWorkbench } = await import('../state/store.ts');
const { tryValue, letGo } = await import('../state/actions.ts');

const text = readFileSync('demo/1-quail-run-lane.airledger.json', 'utf8');
const named = (name: string) => (job: Job) => ({ ...job, name });
const withLength = (length: string) => (job: Job) => ({
  ...job,
  systems: job.systems!.map((system) => ({
    ...system,
    parts: system.parts.map((part) => (part.role === 'run' ? { ...part, length } : part)),
  })),
});
const state = () => useWorkbench.getState();
const firstRun = (id = state().viewed, opened = state().job!) =>
  opened.surveys[id]!.systems[0]!.parts.find(({ role }) => role === 'run')!;

beforeEach(() => {
  const opening = openJob(text);
  if (!opening.opened) throw new Error('The demo house does not read.');
  showJob({ id: 'one', fileName: 'one', typed: opening.typed, opened: opening.job });
});

test('an edit changes job and surveys, is told with who and when, and can be undone and redone', () => {
  const before = state().typed!;
  expect(edit('House renamed', named('New name'))).toEqual({ ok: true });
  expect(state().job!.name).toBe('New name');
  expect(state().job!.surveys['as-found']!.name).toBe('New name');
  expect(state().history).toMatchObject([{ who: 'Ada', what: 'House renamed' }]);
  expect(canUndo(state())).toBe(true);
  undo();
  expect(state().typed).toEqual(before);
  expect(canRedo(state())).toBe(true);
  redo();
  expect(state().job!.name).toBe('New name');
  expect(state().history.map(({ what }) => what)).toEqual([
    'House renamed',
    'Undone: House renamed',
    'Done again: House renamed',
  ]);
});

test('an edit that would not read changes nothing and says why', () => {
  const before = state();
  const result = edit('Run shortened', withLength('-3 ft'));
  expect(result).toMatchObject({ ok: false });
  if (!result.ok) expect(result.errors[0]!.message).toContain('-3 ft');
  expect(state().typed).toBe(before.typed);
  expect(state().job).toBe(before.job);
  expect(canUndo(state())).toBe(false);
});

test('moves of one gesture are one step, and the surveys follow when it ends', () => {
  const opened = state().job;
  for (const feet of [3, 4, 5])
    expect(edit('Run moved', withLength(`${feet} ft`), { gesture: 'drag' })).toEqual({ ok: true });
  expect(firstRun(state().viewed, surveyStates(state().typed!)).length_m).toBeCloseTo(1.524, 9);
  expect(state().job).toBe(opened);
  expect(canUndo(state())).toBe(false);
  endGesture();
  expect(firstRun().length_m).toBeCloseTo(1.524, 9);
  expect(firstRun('as-specified').length_m).toBeCloseTo(1.524, 9);
  expect(state().steps.past).toHaveLength(1);
  undo();
  expect(lengthText(firstRun().length_m, 'ip')).not.toBe('5 ft');
});

test('a gesture that ends where the job does not read is taken back whole', () => {
  const before = state().typed;
  const opened = state().job;
  edit('Run moved', withLength('4 ft'), { gesture: 'drag' });
  edit('Run moved', withLength('4000 ft'), { gesture: 'drag' });
  expect(endGesture()).toMatchObject({ ok: false });
  expect(state().typed).toBe(before);
  expect(state().job).toBe(opened);
});

test('trials and edits are undone in the order they were made', () => {
  tryValue('slack/a/', 0.1);
  letGo();
  edit('House renamed', named('New name'));
  tryValue('slack/a/', 0.2);
  letGo();
  undo();
  expect(state().trials['as-found']).toEqual({ 'slack/a/': 0.1 });
  undo();
  expect(state().job!.name).not.toBe('New name');
  expect(state().trials['as-found']).toEqual({ 'slack/a/': 0.1 });
  undo();
  expect(state().trials['as-found'] ?? {}).toEqual({});
  redo();
  redo();
  expect(state().job!.name).toBe('New name');
  expect(state().trials['as-found']).toEqual({ 'slack/a/': 0.1 });
});

test('an edit in a later state leaves the surveys of earlier ones as they are, and a state that is gone is not in view', () => {
  const found = state().job!.surveys['as-found'];
  useWorkbench.setState({ viewed: 'as-specified' });
  edit('Run moved', withLength('5 ft'));
  expect(state().job!.surveys['as-found']).toBe(found);
  expect(firstRun('as-specified').length_m).toBeCloseTo(1.524, 9);
  editTyped('State removed', (job) => ({ ...job, states: job.states!.slice(0, 1) }));
  expect(state().viewed).toBe('as-found');
});
