import { describe, expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { doubtsAbout } from './doubts-about.ts';
import type { Reading, ReadingSubject, TestSetup } from './types.ts';

const system = smallHouse.systems[0]!;
const terminals = system.parts.flatMap(({ side, terminal }) =>
  side === 'supply' && terminal ? [terminal.id] : [],
);
const running: TestSetup = {
  fan: 'cooling',
  doors: 'as surveyed',
  registers: 'open',
  filter: 'in',
  side: 'both',
};

const read = (
  subject: ReadingSubject,
  value: number,
  accuracy: number,
  setup: TestSetup = running,
  id: string = subject.kind,
): Reading => ({ id, subject, value, accuracy, setup, state: 'as-found', path: `readings/${id}` });

const plenum = (value: number) =>
  read({ kind: 'system static', system: system.id, place: 'supply plenum' }, value, 2);
const hood = (value: number, which = 0, id?: string) =>
  read({ kind: 'terminal flow', terminal: terminals[which]!, hood: 'powered' }, value, 0.003, running, id);
const kinds = (...readings: Reading[]) => doubtsAbout(readings, smallHouse, 'ip').map(({ kind }) => kind);
const design = system.designAirflow_m3s.cooling;

describe('a reading by itself', () => {
  test('is not doubted where it may well be true', () => {
    expect(kinds(plenum(62), hood(design / 5))).toEqual([]);
  });

  test('hoses that are swapped are named, with the value that was meant', () => {
    const [doubt] = doubtsAbout([plenum(-62)], smallHouse, 'ip');
    expect(doubt).toMatchObject({ kind: 'wrong sign', readings: ['system static'] });
    expect(doubt!.message).toMatch(/supply plenum.*-0\.249 in\.wc.*0\.249 in\.wc: the hoses may be swapped/);
  });

  test('Pa typed as in.wc is named (a factor of 249), and in.wc typed as Pa', () => {
    const [asInches] = doubtsAbout([plenum(62 * 249.08891)], smallHouse, 'si');
    expect(asInches).toMatchObject({ kind: 'wrong unit' });
    expect(asInches!.message).toContain('62.0 Pa: Pa may have been typed as in.wc');
    expect(kinds(plenum(0.25))).toEqual(['wrong unit']);
  });

  test('a pan above the pressure of the house is impossible; one below nothing has a wrong sign', () => {
    const pan = (value: number) =>
      read({ kind: 'pressure pan', terminal: terminals[0]! }, value, 0.3, {
        ...running,
        fan: 'off',
        housePressure_Pa: -50,
      });
    expect(kinds(pan(80))).toEqual(['impossible']);
    expect(kinds(pan(-6))).toEqual(['wrong sign']);
    expect(kinds(pan(48))).toEqual(['unlikely']);
    expect(kinds(pan(-0.2))).toEqual([]);
  });

  test('°C typed as °F, kW typed as W, a negative flow', () => {
    const air = (value: number) =>
      read({ kind: 'terminal temperature', terminal: terminals[0]! }, value, 0.5);
    expect(kinds(air((14 - 32) / 1.8))).toEqual(['wrong unit']);
    expect(kinds(read({ kind: 'fan power', system: system.id }, 0.45, 0.02))).toEqual(['wrong unit']);
    expect(kinds(hood(-design / 5))).toEqual(['wrong sign']);
  });

  test('an impossible one that no slip explains says so', () => {
    expect(kinds(read({ kind: 'fan power', system: system.id }, 9_000_000, 20))).toEqual(['impossible']);
  });
});

describe('readings against each other', () => {
  test('a register read twice: told when the two agree, doubted when they do not', () => {
    const first = hood(design / 5, 0, 'first');
    expect(kinds(first, hood(design / 5 + 0.002, 0, 'again'))).toEqual(['repeated']);
    expect(kinds(first, hood(design / 2.5, 0, 'again'))).toEqual(['contradicts another']);
    expect(kinds(first, hood(design / 5, 1, 'other'))).toEqual([]);
  });

  test('registers that pass more than the fan moves', () => {
    const fan = read({ kind: 'fan flow', system: system.id }, design * 0.6, design * 0.03);
    const registers = terminals.map((_, i) => hood((design * 1.1) / terminals.length, i, `hood-${i}`));
    const [doubt] = doubtsAbout([fan, ...registers], smallHouse, 'ip');
    expect(doubt).toMatchObject({ kind: 'contradicts another' });
    expect(doubt!.readings[0]).toBe('fan flow');
    const enough = { ...fan, value: design * 1.2 };
    expect(kinds(enough, ...registers)).toEqual([]);
  });

  const filtered = (value: number) =>
    read({ kind: 'system static', system: system.id, place: 'after filter' }, value, 2, running, 'filter');
  const returning = (value: number) =>
    read({ kind: 'system static', system: system.id, place: 'return plenum' }, value, 2, running, 'return');

  test('pressure that rises along the filter, cold that grows along a duct', () => {
    expect(kinds(filtered(-60), returning(-100))).toEqual(['contradicts another']);
    expect(kinds(filtered(-100), returning(-60))).toEqual([]);
    const made = read({ kind: 'system temperature', system: system.id, place: 'supply plenum' }, 13, 0.5);
    const arrives = read({ kind: 'terminal temperature', terminal: terminals[0]! }, 10, 0.5);
    expect(kinds(made, arrives)).toEqual(['contradicts another']);
  });

  test('one that is impossible by itself is not held against the others', () => {
    expect(kinds(filtered(60), returning(-100))).toEqual(['wrong sign']);
  });
});
