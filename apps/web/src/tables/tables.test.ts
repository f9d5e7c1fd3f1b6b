import { readFileSync } from 'node:fs';
import { applyState, type Job } from '@airledger/job';
import { beforeEach, expect, test, vi } from 'vitest';
import { openJob } from '../worker/open-job.ts';
import { pastedRows } from './pasted-rows.ts';
import { tableKinds } from './table-kinds.ts';
import { parseTsv, toTsv } from './tsv.ts';

vi.mock('../worker/engine-client.ts', () => ({ engine: {}, patientEngine: {} }));
vi.stubGlobal('window', { matchMedia: () => ({ matches: true }) });
vi.stubGlobal('localStorage', { getItem: () => 'Ada', setItem: () => undefined });
const { fillCells, wholeRow } = await import('./fill-cells.ts');
const { showJob } = await import('../document/show-job.ts');
const { useWorkbench } = await import('../state/store.ts');

const text = readFileSync('demo/1-quail-run-lane.airledger.json', 'utf8');
const house = (): Job => applyState(useWorkbench.getState().typed!, 'as-found');

beforeEach(() => {
  const opening = openJob(text);
  if (!opening.opened) throw new Error('The demo house does not read.');
  showJob({ id: 'one', fileName: 'one', typed: opening.typed, opened: opening.job });
});

const paste = (name: 'rooms' | 'leaks', rows: string, at = { row: 0, column: 0 }) => {
  const table = tableKinds[name];
  return pastedRows(house(), table, table.rows(house()), parseTsv(rows), at, (i) => `new ${i}`);
};

test('cells of the clipboard survive both ways, inches and line ends included', () => {
  const cells = [
    ['Den', '12" deep', 'two\nlines'],
    ['', 'b', ''],
  ];
  expect(parseTsv(toTsv(cells))).toEqual(cells);
  expect(parseTsv('10 in\t8"\r\n')).toEqual([['10 in', '8"']]);
  // An empty row of a block keeps its place.
  expect(parseTsv('a\tb\n\t\nc\td\n\t\n')).toEqual([
    ['a', 'b'],
    ['', ''],
    ['c', 'd'],
  ]);
});

test('with heads, known rows are changed by name and others are added', () => {
  const edits = paste('rooms', 'Name\tFloor area\tHeight\nBedroom 3\t\t9\nDen\t120\t8 ft');
  const { faults } = fillCells('Pasted', tableKinds.rooms, edits, 'ip');
  expect(faults).toEqual({});
  expect(house().rooms.find(({ id }) => id === 'bedroom-3')!.height).toBe('9 ft');
  expect(house().rooms.find(({ id }) => id === 'den')).toEqual({
    id: 'den',
    name: 'Den',
    floorArea: '120 ft²',
    height: '8 ft',
  });
});

test('what a cell does not take is told by cell, and the others are taken as one step', () => {
  const edits = paste(
    'rooms',
    'Name\tFloor area\tHeight\nBedroom 3\t\ttall\nStudy\t\t9 ft\nDen\tsmall\t8 ft',
  );
  const { faults } = fillCells('Pasted', tableKinds.rooms, edits, 'ip');
  expect(faults['rooms/bedroom-3']!.height).toContain('tall');
  expect(faults['new 2']!.floorArea).toContain('small');
  expect(house().rooms.find(({ id }) => id === 'study')!.height).toBe('9 ft');
  expect(house().rooms.some(({ id }) => id === 'den')).toBe(false);
  expect(useWorkbench.getState().steps.past).toHaveLength(1);
});

test('without heads, cells go right and down from the cell in hand and beyond the last row', () => {
  const last = house().rooms.length - 1;
  const edits = paste('rooms', '8 ft\n9 ft', { row: last, column: 5 });
  expect(edits[0]).toEqual({
    key: `rooms/${house().rooms[last]!.id}`,
    path: `rooms/${house().rooms[last]!.id}`,
    cells: { height: '8 ft' },
  });
  expect(edits[1]).toEqual({ key: 'new 1', cells: { height: '9 ft' } });
});

test('a leak is added to the duct it is named with, and refused for one that is not there', () => {
  const rows = 'Duct\tPlace\tFlow at 25 Pa\nEast trunk\tjoint\t12\nNo such duct\tjoint\t5';
  const { faults } = fillCells('Pasted', tableKinds.leaks, paste('leaks', rows), 'ip');
  const trunk = house().systems![0]!.parts.find(({ name }) => name === 'East trunk')!;
  expect(trunk.leaks!.at(-1)).toEqual({ place: 'joint', flow: '12 cfm' });
  expect(faults['new 1']![wholeRow]).toContain('No such duct');
});

test('one property for many rows', () => {
  const runs = tableKinds.ducts.rows(house()).filter(({ id }) => id.startsWith('run-'));
  const edits = runs.map(({ path }) => ({ key: path, path, cells: { insulation: '8' } }));
  expect(fillCells('All runs: R-8', tableKinds.ducts, edits, 'ip').faults).toEqual({});
  const parts = house().systems![0]!.parts.filter(({ id }) => id.startsWith('run-'));
  expect(new Set(parts.map(({ insulation }) => insulation))).toEqual(new Set(['R-8']));
  expect(useWorkbench.getState().steps.past).toHaveLength(1);
});

test('a leak has one size: its flow, typed, takes the place of a word for its tightness', () => {
  const path = 'systems/main/parts/run-kitchen/leaks/0';
  const leak = () =>
    house().systems![0]!.parts.find(({ id }) => id === 'run-kitchen')!.leaks![0] as Record<string, unknown>;
  const type = (cells: Record<string, string>) =>
    fillCells('Typed', tableKinds.leaks, [{ key: path, path, cells }], 'ip').faults;
  expect(type({ tightness: 'typical' })).toEqual({});
  expect(leak()).toMatchObject({ tightness: 'typical' });
  expect(leak().flow).toBeUndefined();
  expect(type({ flow: '9' })).toEqual({});
  expect(leak()).toMatchObject({ flow: '9 cfm' });
  expect(leak().tightness).toBeUndefined();
});
