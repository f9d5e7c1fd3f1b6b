import { showJob } from '../document/show-job.ts';
import { holdNothing, save } from '../keeping/autosave.ts';
import { importJob } from '../keeping/jobs.ts';
import { engine } from '../worker/engine-client.ts';
import { type Area, noTrials, useWorkbench, type Workbench } from './store.ts';

const set = useWorkbench.setState;
const get = useWorkbench.getState;

/** Shows a job that is kept once it is edited; when its file has faults they are shown and the house in hand stays. */
const openText = async (fileName: string, text: string): Promise<void> => {
  const opening = await engine.openJob(text);
  if (!opening.opened) {
    set({ refused: { fileName, problems: opening.problems } });
    return;
  }
  const { job, typed } = opening;
  await save();
  holdNothing();
  showJob({ id: crypto.randomUUID(), fileName, typed, opened: job });
};

/** Keeps the job of a file with its photos, and opens it. */
export const openFile = async (file: File): Promise<void> => {
  const problems = await importJob(file.name, await file.text());
  if (problems.length > 0) set({ refused: { fileName: file.name, problems } });
};

export const openAddress = async (name: string, url: string): Promise<void> => {
  const answer = await fetch(url);
  if (!answer.ok) {
    const problem = {
      path: '',
      value: `status ${answer.status}`,
      expected: 'a job file that can be read',
      remedy: 'Check that the file is still there, then open it again.',
      message: `${name} cannot be read: status ${answer.status}`,
    };
    set({ refused: { fileName: name, problems: [problem] } });
    return;
  }
  await openText(name, await answer.text());
};

export const dismissRefused = (): void => set({ refused: undefined });

/** Shows a work area; a comparison is part of the air only. */
export const showArea = (area: Area): void => set({ area, ...(area === 'air' ? {} : { compared: false }) });

/** Chooses a room, on its storey, with the first of its runs in hand. */
export const chooseRoom = (id: string): void => {
  const survey = surveyInView(get());
  const room = survey?.rooms.find((each) => each.id === id);
  if (!room) return;
  set({ room: id, part: undefined, storey: room.storey });
};

/** Chooses a part of the ducts, and the room it serves if it serves one. */
export const choosePart = (id: string): void => {
  const survey = surveyInView(get());
  const part = survey?.systems.flatMap((system) => system.parts).find((each) => each.id === id);
  if (!part) return;
  const room = part.side === 'supply' ? part.terminal?.room : undefined;
  set({ part: id, storey: part.storey, ...(room ? { room } : {}) });
};

const surveyInView = ({ job, viewed }: Workbench) => job?.surveys[viewed];

/** Tries a value on the state in view; moves of one handle make one step of history. */
export const tryValue = (handle: string, value: number | boolean): void =>
  set((state) => {
    const trials = {
      ...state.trials,
      [state.viewed]: { ...(state.trials[state.viewed] ?? noTrials), [handle]: value },
    };
    if (state.moving === handle) return { trials };
    return { trials, past: [...state.past, state.trials].slice(-200), future: [], moving: handle };
  });

/** The handle is let go: the next move is a step of its own. */
export const letGo = (): void => set({ moving: undefined });

export const putBack = (): void =>
  set((state) => ({
    trials: { ...state.trials, [state.viewed]: noTrials },
    past: [...state.past, state.trials].slice(-200),
    future: [],
    moving: undefined,
  }));
