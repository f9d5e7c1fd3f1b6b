import { expect, test } from 'vitest';
import { latestWins } from './latest-wins.ts';

const later = () => new Promise((resume) => setTimeout(resume, 0));

test('while one runs only the newest waits', async () => {
  const ran: number[] = [];
  const delivered: number[] = [];
  const ask = latestWins<number, number>(
    async function* (input) {
      ran.push(input);
      await later();
      yield input * 10;
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
    async function* (input) {
      if (input === 1) throw new Error('no');
      yield input;
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

test('the rest of an answer is left out when something newer waits', async () => {
  const delivered: string[] = [];
  const ask = latestWins<string, string>(
    async function* (input) {
      yield `${input} in view`;
      await later();
      yield `${input} whole`;
    },
    (output) => {
      delivered.push(output);
      if (output === 'first in view') ask('second');
    },
    () => undefined,
  );
  ask('first');
  for (let i = 0; i < 6; i++) await later();
  expect(delivered).toEqual(['first in view', 'second in view', 'second whole']);
});
