import type { Account, Check, Mode, Survey, UnitSystem } from '@airledger/engine';
import type { Job } from '@airledger/job';

/** One state of the house, worked out. */
export type HandoverState = {
  readonly id: string;
  readonly survey: Survey;
  readonly accounts: Readonly<Record<Mode, Account>>;
  readonly checks: readonly Check[];
};

/** What a handover is made of: one state, or the state before and the state after. */
export type HandoverInput = {
  readonly job: Job;
  readonly states: readonly [HandoverState] | readonly [before: HandoverState, after: HandoverState];
  readonly units: UnitSystem;
};

/** The state that is handed over. */
export const handedOver = ({ states }: HandoverInput): HandoverState => states.at(-1)!;

/** How a state is called: by its name in the job, or by its id in words. */
export const stateName = (job: Job, id: string): string =>
  job.states?.find((state) => state.id === id)?.name ?? capital(id.replaceAll('-', ' '));

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
