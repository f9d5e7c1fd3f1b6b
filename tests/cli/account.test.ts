import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import type { Account } from '@airledger/engine';
import { beforeAll, describe, expect, test } from 'vitest';
import { quailRun, type Run, root, runCli, tiny } from './run-cli.ts';

type AccountJson = {
  readonly name: string;
  readonly state: string;
  readonly accounts: Readonly<
    Record<'heating' | 'cooling', Pick<Account, 'rooms' | 'systems' | 'ledger' | 'house'>>
  >;
};

describe('account as JSON', () => {
  let json: AccountJson;
  beforeAll(async () => {
    const { code, stdout, stderr } = await runCli(['account', quailRun, '--json']);
    expect([code, stderr]).toEqual([0, '']);
    json = JSON.parse(stdout) as AccountJson;
  });

  test('names house and state and has both design days', () => {
    expect(json.name).toBe('14 Quail Run Lane');
    expect(json.state).toBe('as-found');
    expect(Object.keys(json.accounts)).toEqual(['heating', 'cooling']);
  });

  test('has lines that a reader can add up to nothing in every room', () => {
    for (const { rooms, ledger } of Object.values(json.accounts)) {
      expect(Math.max(...Object.values(ledger.residual))).toBeLessThan(1e-9);
      for (const { room } of rooms)
        for (const value of ['sensible_W', 'latent_W', 'air_kgs'] as const) {
          let sum = 0;
          let through = 0;
          for (const line of ledger.lines) {
            const amount = line[value] * (value === 'air_kgs' ? line.share : 1);
            if (line.to === room) sum += amount;
            if (line.from === room) sum -= amount;
            if (line.to === room || line.from === room) through += Math.abs(amount);
          }
          expect(through).toBeGreaterThan(0);
          expect(Math.abs(sum) / through).toBeLessThan(1e-9);
        }
    }
  });
});

describe('account as text', () => {
  let file: Run;
  beforeAll(async () => {
    file = await runCli(['account', tiny, '--mode', 'cooling']);
  });

  test('prints closing sums of zero and no colour into a pipe', () => {
    expect(file.code).toBe(0);
    const sums = file.stdout.split('\n').filter((line) => line.includes('adds up to'));
    // Air handler, two rooms, attic.
    expect(sums).toHaveLength(4);
    for (const line of sums) expect(line.trim().split(/\s{2,}/)).toEqual(['adds up to', '0.0', '0.0', '0.0']);
    expect(file.stdout).not.toContain('\u001b');
    expect(file.stdout).not.toMatch(/undefined|NaN/);
  });

  test('reads the same from stdin', async () => {
    const stdin = await readFile(tiny, 'utf8');
    expect(await runCli(['account', '-', '--mode', 'cooling'], { stdin })).toEqual(file);
  });

  test('says where its loads are to be looked at twice, room by room, and only there', async () => {
    const text = async (mode: string) => (await runCli(['account', quailRun, '--mode', mode])).stdout;
    expect(await text('cooling')).toMatch(
      /Look twice at these loads\n(.*\n)* {2}Bath: The cooling load comes out negative/,
    );
    expect(await text('heating')).not.toContain('Look twice');
  });

  test('shows one place alone, in the units asked for', async () => {
    const { stdout } = await runCli([
      'account',
      tiny,
      '--mode',
      'heating',
      '--place',
      'bedroom',
      '--units',
      'si',
    ]);
    expect(stdout.match(/adds up to/g)).toHaveLength(1);
    expect(stdout).toContain('L/s');
    expect(stdout).not.toContain('cfm');
  });

  test('prints the lines of duct parts when asked', async () => {
    const { stdout } = await runCli(['account', tiny, '--mode', 'heating', '--lines']);
    const { accounts } = JSON.parse((await runCli(['account', tiny, '--json'])).stdout) as AccountJson;
    const places = new Set(accounts.heating.ledger.lines.flatMap(({ from, to }) => [from, to]));
    for (const beyond of [
      'outdoors',
      'ground',
      'sun',
      'occupants',
      'equipment',
      'electricity',
      'construction',
    ])
      places.delete(beyond);
    expect(stdout.match(/adds up to/g)).toHaveLength(places.size);
  });

  test('lets a pipe be closed early', async () => {
    const { stdout, stderr } = await promisify(execFile)(
      'bash',
      ['-c', 'set -o pipefail; node apps/cli/bin/airledger.mjs account "$0" --lines | head -n 1', tiny],
      { cwd: root },
    );
    expect([stdout.trim(), stderr]).toEqual(['Two rooms · as-found · heating', '']);
  });
});
