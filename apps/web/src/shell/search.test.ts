import { expect, test } from 'vitest';
import { type Finding, search } from './search.ts';

const finding = (name: string, kind: string): Finding => ({ id: name, name, kind, act: () => undefined });
const findings = [
  finding('Main bedroom', 'room'),
  finding('Bedroom 3', 'room'),
  finding('Bedroom 3', 'supply run'),
  finding('Heating day', 'action'),
];

test('every word must be found; names that begin with it come first', () => {
  expect(search(findings, 'bed').map(({ name }) => name)).toEqual(['Bedroom 3', 'Bedroom 3', 'Main bedroom']);
  expect(search(findings, 'bedroom run').map(({ kind }) => kind)).toEqual(['supply run']);
  expect(search(findings, 'zzz')).toEqual([]);
  expect(search(findings, '')).toHaveLength(4);
});
