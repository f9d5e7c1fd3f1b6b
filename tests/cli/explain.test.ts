import { expect, test } from 'vitest';
import { quailRun, runCli } from './run-cli.ts';

const number = (text: string) => Number(text.replace('−', '-').replace(',', ''));

/** Figures of the table that ends with a given line: those of the parts, then that of the whole. */
const tableBefore = (text: string, whole: string): { parts: number[]; whole: number } => {
  const table = text.split('\n\n').find((block) => new RegExp(`^${whole} `, 'm').test(block))!;
  const lines = table.trimEnd().slice(table.lastIndexOf('──')).split('\n').slice(1);
  const figures = lines.map((line) => number(line.match(/ {2}(−?[\d,.]+)/)![1]!));
  return { parts: figures.slice(0, -1), whole: figures.at(-1)! };
};

test('says in words why rooms are short of air and cooling and uneven, with bars that add up and ledger lines', async () => {
  const { code, stdout } = await runCli(['explain', quailRun, '--mode', 'cooling', '--no-readings']);
  expect(code).toBe(0);
  const flat = stdout.replace(/\s+/g, ' ');
  expect(flat).toMatch(/Bedroom 3 is \d+ cfm short of air, chiefly because of /);
  expect(flat).toMatch(/Bedroom 3 is [\d,]+ Btu\/h short of cooling, chiefly because of .*walls of its run/);
  expect(flat).toMatch(/ gets \d+ % of the air it needs, Bedroom 3 \d+ %: a gap of \d+ % of need/);
  expect(flat).toMatch(
    /Cooling between rooms, cooling day \S.* gets \d+ % of the cooling it needs, .* \d+ %: a gap of/,
  );
  expect(stdout).toMatch(/^Bedroom 3 +takeoff leak +\d/m);
  expect(stdout).toMatch(/█{20}/);
  for (const whole of ['Short of air by', 'Short of cooling by', 'Gap']) {
    const found = tableBefore(stdout, whole);
    const sum = found.parts.reduce((total, part) => total + part, 0);
    // Each of a dozen parts is rounded to a last place of 0.1 cfm, 1 Btu/h or 1 %.
    const place = whole === 'Short of air by' ? 0.1 : 1;
    expect(Math.abs(sum - found.whole), whole).toBeLessThan(place * Math.sqrt(found.parts.length + 1));
  }
  expect(stdout).not.toMatch(/undefined|NaN/);
});
