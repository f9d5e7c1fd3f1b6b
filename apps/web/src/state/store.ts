import type { Mode } from '@airledger/engine';
import { emptyUndoStack, type History, type Job, type JobError, type UndoStack } from '@airledger/job';
import { create } from 'zustand';
import { subscribeWithSelector } from 'zustand/middleware';
import type { Trials } from '../trial/trials.ts';
import type { OpenedJob } from '../worker/open-job.ts';
import type { Ranges } from '../worker/ranges.ts';
import type { Reading } from '../worker/read-survey.ts';
import type { Reasons } from '../worker/worker.ts';

export type Area =
  | 'draw'
  | 'survey'
  | 'loads'
  | 'air'
  | 'tests'
  | 'repairs'
  | 'balance'
  | 'season'
  | 'checks';
export type UnitSystem = 'ip' | 'si';
export type Theme = 'light' | 'dark';
export type Quantity = 'air' | 'sensible' | 'moisture';

/** What goes wrong with a file is shown in place, together with the file it belongs to. */
export type RefusedFile = { readonly fileName: string; readonly problems: readonly JobError[] };

/** Why rooms are short, and what it was worked out for. */
export type Explained = {
  readonly reasons: Reasons;
  readonly state: string;
  readonly mode: Mode;
  readonly trials: Trials;
};

/** Moves of one gesture, from where they began. */
export type Gesture = {
  readonly name: string;
  readonly label: string;
  readonly before: Job;
};

export type Workbench = {
  /** Identity of the job in hand. */
  readonly jobId: string;
  /** The job in hand as it was typed, and its states as surveys; these stand still while a gesture goes on. */
  readonly typed?: Job;
  readonly job?: OpenedJob;
  /** Edits that can be undone and redone, and all changes with who and when. */
  readonly steps: UndoStack;
  readonly history: History;
  /** While a gesture goes on, the job in hand is not checked in full yet. */
  readonly gesture?: Gesture;
  readonly fileName: string;
  readonly refused?: RefusedFile;
  readonly area: Area;
  /** State in view, by its id. */
  readonly viewed: string;
  readonly compared: boolean;
  /** The two states of a comparison. */
  readonly pair: readonly [string, string];
  readonly mode: Mode;
  readonly units: UnitSystem;
  readonly theme: Theme;
  readonly quantity: Quantity;
  readonly room?: string;
  /** Part of the ducts in hand, if any. */
  readonly part?: string;
  readonly storey: number;
  readonly accountOpen: boolean;
  readonly accountAsTable: boolean;
  /** Trials of each state. */
  readonly trials: Readonly<Record<string, Trials>>;
  /** Steps since the job was opened, in order: trials as they were before, or an edit, which `steps` holds. */
  readonly past: readonly (Workbench['trials'] | 'edit')[];
  readonly future: readonly (Workbench['trials'] | 'edit')[];
  /** Handle that is being moved: its moves make one step of history. */
  readonly moving?: string;
  readonly readings: Readonly<Record<string, Reading>>;
  /** Ranges of the figures in view; absent until they are known. */
  readonly ranges?: Ranges;
  /** Why a room is short, as it was worked out last. */
  readonly explained?: Explained;
  readonly failure?: string;
};

/** Where there is little room, the account slides up when asked for. */
const wideScreen = (): boolean => window.matchMedia('(min-width: 1281px) and (min-height: 780px)').matches;

export const useWorkbench = create<Workbench>()(
  subscribeWithSelector(
    (): Workbench => ({
      jobId: '',
      steps: emptyUndoStack,
      history: [],
      fileName: '',
      area: 'air',
      viewed: '',
      compared: false,
      pair: ['', ''],
      mode: 'cooling',
      units: 'ip',
      theme: 'light',
      quantity: 'air',
      storey: 1,
      accountOpen: wideScreen(),
      accountAsTable: false,
      trials: {},
      past: [],
      future: [],
      readings: {},
    }),
  ),
);

export const noTrials: Trials = {};
