import {
  account,
  type DayAccounts,
  type Imbalance,
  type Mode,
  type RoomExplanation,
  type Survey,
  type UnitSystem,
} from '@airledger/engine';
import { type GuidanceItem, type Job, type QuickStart, surveyOf } from '@airledger/job';
import { expose } from 'comlink';
import { config } from 'zod';
import { applyTrials, type Trials } from '../trial/trials.ts';
import { makeHandover } from './make-handover.ts';
import { type Opening, openJob } from './open-job.ts';
import type { Ranges } from './ranges.ts';
import { type DayReading, otherDay, readDay } from './read-survey.ts';
import type { RangeQuestion } from './sample-ranges.ts';
import { whileMoving } from './while-moving.ts';

// A house is read once for many edits: to compile the checks of its fields takes longer than to run them.
config({ jitless: true });

type HandoverStates = Parameters<typeof makeHandover>[1];

/** Loaded when it is asked for, so that the first house does not wait for it. */
const later = () => import('./later.ts');

let typed: Job | undefined;
let question = 0;
let guided = 0;

/** The last survey of each state, its days that are solved, and the newest account of either day. */
type Read = { readonly survey: Survey; readonly accounts: DayAccounts; readonly newest: DayAccounts };
const last = new Map<string, Read>();

/** Why a room is short, and where the house is uneven. */
export type Reasons = { readonly room: RoomExplanation; readonly imbalances: readonly Imbalance[] };

/** What the page asks of its engine, off the main thread. */
const engine = {
  openJob(input: string | Job): Opening {
    last.clear();
    return openJob(input);
  },

  /** The job that ranges and the handover are asked of. */
  adopt(job: Job): void {
    typed = job;
  },

  /** Solves one design day of a state after an edit; `moving`: a hand moves, with this room in view. */
  read(
    state: string,
    job: Job,
    trials: Trials,
    mode: Mode,
    moving?: { readonly room: string | undefined },
  ): DayReading {
    const survey = applyTrials(surveyOf(job, state), trials);
    const newest = last.get(state)?.newest;
    const reading = readDay(survey, mode, {}, newest);
    last.set(state, { survey, accounts: reading.accounts, newest: { ...newest, ...reading.accounts } });
    return moving
      ? { ...reading, accounts: { [mode]: whileMoving(reading.accounts[mode]!, moving.room) } }
      : reading;
  },

  /** Solves the other design day of the state as it was read last; the first stays where it is. */
  readOther(state: string, first: Mode): DayReading {
    const { survey, accounts, newest } = last.get(state)!;
    const mode = otherDay(first);
    const reading = readDay(survey, mode, accounts, newest);
    last.set(state, { survey, accounts: reading.accounts, newest: reading.accounts });
    return { ...reading, accounts: { [mode]: reading.accounts[mode] } };
  },

  /** Why a room is short of air and heat, and where the house is uneven. */
  async explain(survey: Survey, mode: Mode, room: string): Promise<Reasons> {
    const { explainImbalance, explainRoom, unevenGroups } = await later();
    const house = account(survey, mode);
    return {
      room: explainRoom(house, room),
      imbalances: unevenGroups(house).map(({ of, better, worse }) =>
        explainImbalance(house, of, better, worse),
      ),
    };
  },

  async handover(states: HandoverStates, units: UnitSystem): Promise<string> {
    if (!typed) throw new Error('No job is open.');
    return makeHandover(typed, states, units);
  },

  /** Ranges of the adopted job; undefined when another question or `stop` came in between. */
  async range(asked: RangeQuestion): Promise<Ranges | undefined> {
    const own = ++question;
    const { sampleRanges } = await later();
    if (!typed) return undefined;
    return sampleRanges(typed, asked, async () => {
      await new Promise((resume) => setTimeout(resume, 0));
      return own === question;
    });
  },

  stop(): void {
    question++;
  },

  /** What is worth measuring next in the adopted job; undefined when it was asked anew or `stopGuidance` came in between. */
  async guide(
    state: string,
    mode: Mode,
    progress: (done: number, of: number) => void,
  ): Promise<readonly GuidanceItem[] | undefined> {
    const own = ++guided;
    const { guidance } = await later();
    if (!typed) return undefined;
    return guidance(typed, state, mode, {
      // One in ten: telling the page takes longer than a small house.
      progress: (done, of) => done % 10 === 0 && progress(done, of),
      stillWanted: async () => {
        await new Promise((resume) => setTimeout(resume, 0));
        return own === guided;
      },
    });
  },

  stopGuidance(): void {
    guided++;
  },

  async quickStart(form: QuickStart): Promise<Job> {
    const { quickStart } = await later();
    return quickStart(form);
  },
};

export type Engine = typeof engine;

expose(engine);
