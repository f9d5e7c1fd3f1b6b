import { expect, test } from 'vitest';
import { setValue } from './set-value.ts';
import { asValue, knownBy, retyped, typedQuantity, withUnit } from './typed-quantity.ts';

test('a bare number gets the unit beside the field, typed text stays as typed', () => {
  expect(withUnit('12', 'length', 'ip')).toBe('12 ft');
  expect(withUnit('8', 'resistance', 'ip')).toBe('R-8');
  expect(withUnit('18 % (12 to 25 %)', 'ratio', 'ip')).toBe('18 % (12 to 25 %)');
  expect(withUnit(' 3 m ', 'length', 'ip')).toBe('3 m');
  expect(withUnit('0.65', 'number', 'si')).toBe('0.65');
  expect(withUnit('0.15', 'ratio', 'ip')).toBe('0.15');
  expect(withUnit('15', 'ratio', 'ip')).toBe('15 %');
});

test('a quantity is written no longer than it needs to be', () => {
  expect(asValue(typedQuantity('R-6'))).toBe('R-6');
  expect(asValue({ text: 'R-6', known: 'measured' })).toEqual({ value: 'R-6', known: 'measured' });
  expect(asValue({ text: ' ', known: 'measured' })).toBeUndefined();
  expect(typedQuantity({ value: 0.65, note: 'guess' })).toEqual({
    text: '0.65',
    known: undefined,
    note: 'guess',
  });
});

test('a figure typed anew is no assumption and no longer follows the drawing, but keeps what was said of it', () => {
  const assumed = { text: '9 per hour', known: 'assumed', note: 'common practice, no source' } as const;
  expect(retyped(assumed, '13 per hour')).toBe('13 per hour');
  expect(knownBy(assumed, 'measured')).toEqual({ value: '9 per hour', known: 'measured' });
  expect(retyped({ text: '18 ft', known: 'estimated', note: 'drawn, with 2 ft of rises' }, '21 ft')).toBe(
    '21 ft',
  );
  const measured = { text: '22 %', known: 'measured', note: 'hangs between trusses' } as const;
  expect(retyped(measured, '18 %')).toEqual({
    value: '18 %',
    known: 'measured',
    note: 'hangs between trusses',
  });
  expect(knownBy(measured, 'estimated')).toEqual({
    value: '22 %',
    known: 'estimated',
    note: 'hangs between trusses',
  });
});

test('setting a value makes the records on the way and drops those that are left empty', () => {
  const job = { systems: [{ id: 'main', fan: {} }], rooms: [{ id: 'a' }] };
  const set = setValue(job, 'systems/main/airHandler/fan/power', '0.5 W/cfm');
  expect(set.systems[0]).toEqual({ id: 'main', fan: {}, airHandler: { fan: { power: '0.5 W/cfm' } } });
  expect(setValue(set, 'systems/main/airHandler/fan/power', undefined)).toEqual(job);
  expect(job.rooms).toBe(set.rooms);
  expect(setValue(job, 'rooms/1', { id: 'b' }).rooms).toHaveLength(2);
  expect(() => setValue(job, 'rooms/c/height', '8 ft')).toThrow('Nothing stands at "c"');
});
