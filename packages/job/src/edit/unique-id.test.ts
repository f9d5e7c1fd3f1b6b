import { expect, test } from 'vitest';
import { demo } from './drawn-house.ts';
import { uniqueId } from './index.ts';

test('an id counts on from the name it is given', () => {
  const job = demo(1);
  expect(uniqueId(job, 'Bedroom 2')).toBe('bedroom-4');
  expect(uniqueId(job, 'Süd-Zimmer')).toBe('sud-zimmer');
  expect(uniqueId(job, 'outdoors')).toBe('outdoors-2');
  expect(uniqueId(job, 'run-bedroom-3', ['run-bedroom-4'])).toBe('run-bedroom-5');
  // Ids of records that only a state adds are taken too.
  expect(uniqueId(job, 'transfer-study')).toBe('transfer-study-2');
});
