import { account, checkRules } from '@airledger/engine';
import { type Job, stateIds, surveyOf } from '@airledger/job';
import type { HandoverInput, HandoverState } from '@airledger/report/handover-input';
import type { Command } from 'commander';
import { accountJson } from './account-json.ts';
import { type JobOptions, jobCommand } from './job-command.ts';
import { chosenState, readJobFile } from './read-house.ts';
import { writeWhole } from './write-file.ts';

type Options = JobOptions & { readonly output?: string };

/** `airledger handover`: the document for the one who builds, the one who checks and the owner. */
export const handoverCommand = (): Command =>
  jobCommand(
    'handover',
    'npx airledger handover demo/1-quail-run-lane.airledger.json -o handover.html',
    'state to hand over, beside the first; the last when not given',
  )
    .option('-o, --output <file>', 'write to a file instead of stdout')
    .action(async (path: string, { json, units, state, weather, output }: Options) => {
      const job = await readJobFile(path, weather);
      const first = stateIds(job)[0]!;
      const after = state === undefined ? stateIds(job).at(-1)! : chosenState(job, state);
      const states: HandoverInput['states'] =
        first === after ? [workOut(job, first)] : [workOut(job, first), workOut(job, after)];
      const text = json ? asJson(job, states) : await asPage({ job, states, units });
      if (output === undefined) process.stdout.write(text);
      else await writeWhole(output, text);
    });

const workOut = (job: Job, id: string): HandoverState => {
  const survey = surveyOf(job, id);
  const accounts = { heating: account(survey, 'heating'), cooling: account(survey, 'cooling') };
  return { id, survey, accounts, checks: checkRules(survey, accounts) };
};

/** React is loaded only here, where it is needed. */
const asPage = async (input: HandoverInput): Promise<string> =>
  (await import('@airledger/report')).handoverHtml(input);

const asJson = (job: Job, states: readonly HandoverState[]): string => {
  const content = {
    name: job.name,
    about: job.about,
    states: states.map(({ id, survey, accounts, checks }) => ({
      id,
      accounts: { heating: accountJson(accounts.heating), cooling: accountJson(accounts.cooling) },
      checks,
      facts: survey.facts,
    })),
  };
  return `${JSON.stringify(content, null, 2)}\n`;
};
