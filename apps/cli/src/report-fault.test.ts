import { afterEach, expect, test, vi } from 'vitest';
import { BadInput } from './bad-input.ts';
import { reportFault } from './report-fault.ts';

const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
afterEach(() => said.mockClear());

test('a fault of the program is exit code 3 and says where it happened', () => {
  expect(reportFault(new Error('The ledger does not close'), false)).toBe(3);
  expect(said.mock.calls[0]![0]).toMatch(
    /^Internal error, a fault of the program: Error: The ledger does not close\n +at /,
  );
});

test('bad input is exit code 2 and says only what is wrong', () => {
  expect(reportFault(new BadInput('Cannot read it.'), false)).toBe(2);
  expect(said.mock.calls).toEqual([['Cannot read it.']]);
});

test('as JSON every fault is in a list', () => {
  expect(reportFault(new RangeError('no such row'), true)).toBe(3);
  expect(JSON.parse(said.mock.calls[0]![0])).toEqual({ errors: [{ message: 'no such row' }] });
});
