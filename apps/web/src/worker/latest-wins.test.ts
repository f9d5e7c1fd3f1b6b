import { expect, test } from 'vitest';
import { latestWins } from './latest-wins.ts';

const later = () => new Promise((resume) => setTimeout(resume, 0));

test('while one runs only the newest waits', async () => {
  const ran: number[] = [];
  const delivered: number[] = [];
  const ask = latestWins<number, number>(
    async (input) => {
      ran.push(input);
      await later();
      return input * 10;
    },
    (output) => delivered.push(output),
    () => undefined,
  );
  for (const input of [1, 2, 3, 4]) ask(input);
  for (let i = 0; i < 6; i++) await later();
  expect(ran).toEqual([1, 4]);
  expect(delivered).toEqual([10, 40]);
});

test('a failure is told and does not stop what follows', async () => {
  const failed: unknown[] = [];
  const delivered: number[] = [];
  const ask = latestWins<number, number>(
    async (input) => {
      if (input === 1) throw new Error('no');
      return input;
    },
    (output) => delivered.push(output),
    (error) => failed.push(error),
  );
  ask(1);
  ask(2);
  for (let i = 0; i < 6; i++) await later();
  expect(failed).toHaveLength(1);
  expect(delivered).toEqual([2]);
});
