import { expect, test } from 'vitest';
import { parseTyped } from './parse-typed.ts';

test('a bare number counts in the display unit, any unit is taken', () => {
  expect(parseTyped('8', 'resistance', 'ip')).toMatchObject({ value: expect.closeTo(1.4089, 4) });
  expect(parseTyped('R-8', 'resistance', 'si')).toMatchObject({ value: expect.closeTo(1.4089, 4) });
  expect(parseTyped('20', 'airflow', 'si')).toMatchObject({ value: expect.closeTo(0.02, 9) });
  expect(parseTyped('20 cfm', 'airflow', 'si')).toMatchObject({ value: expect.closeTo(0.009439, 6) });
  expect(parseTyped(' 15 ', 'ratio', 'ip')).toMatchObject({ value: expect.closeTo(0.15, 9) });
});

test('what is no such quantity is refused, never NaN', () => {
  for (const text of ['', 'abc', '5 ft', '--3', 'NaN', '1e999'])
    expect(parseTyped(text, 'airflow', 'ip')).toHaveProperty('problem');
});
