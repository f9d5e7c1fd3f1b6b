import { account, checkRules } from '@airledger/engine';
import { failedFirst } from '@airledger/report/check-words';
import type { Command } from 'commander';
import { checksText } from './checks-text.ts';
import { exitCodes } from './exit-codes.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { readHouse } from './read-house.ts';

/** `airledger check`: the rules that a house passes and fails; exit code 1 when it fails one. */
export const checkCommand = (): Command =>
  jobCommand('check', 'npx airledger check demo/1-quail-run-lane.airledger.json --state as-specified').action(
    async (path: string, { json, units, state, weather }: JobOptions) => {
      const survey = await readHouse(path, { state, weather });
      const checks = failedFirst(
        checkRules(survey, { heating: account(survey, 'heating'), cooling: account(survey, 'cooling') }),
      );
      const failed = checks.filter(({ result }) => result === 'fail').length;
      const text = json
        ? JSON.stringify({ name: survey.name, state: survey.state, failed, checks }, null, 2)
        : checksText(survey, checks, units);
      process.stdout.write(`${text}\n`);
      process.exitCode = failed > 0 ? exitCodes.failsCheck : exitCodes.fine;
    },
  );
