import { applyTrials } from '../trial/trials.ts';
import { patientEngine } from '../worker/engine-client.ts';
import { adoptTyped } from './adopt-typed.ts';
import { noTrials, useWorkbench, type Workbench } from './store.ts';

/** Time after the last edit before ranges and causes are worked out, ms. */
const rest_ms = 250;

/**
 * Keeps ranges of the figures in view and the causes of the room's shortage up with the account: ranges go as
 * soon as something is edited, and all is worked out anew when the edit has come to rest.
 */
export const keepReasons = (): void => {
  let timer: number | undefined;
  const again = (changed: 'house' | 'room') => {
    if (asking > 0) void patientEngine.stop();
    if (changed === 'house') useWorkbench.setState({ ranges: undefined });
    clearTimeout(timer);
    timer = window.setTimeout(() => void workOut(), rest_ms);
  };
  useWorkbench.subscribe(
    (state) => [state.job, state.gesture, state.viewed, state.mode, state.trials[state.viewed]] as const,
    () => again('house'),
    { equalityFn: (a, b) => a.every((each, i) => each === b[i]) },
  );
  useWorkbench.subscribe(
    (state) => state.room,
    () => again('room'),
  );
};

/** Questions that are being worked out. */
let asking = 0;

const workOut = async (): Promise<void> => {
  asking++;
  await answer().finally(() => asking--);
};

const answer = async (): Promise<void> => {
  const state = useWorkbench.getState();
  const { job, viewed, mode, room, gesture } = state;
  const base = job?.surveys[viewed];
  if (!base || room === undefined || gesture) return;
  const trials = state.trials[viewed] ?? noTrials;
  const survey = applyTrials(base, trials);
  const current = sameQuestion(state);
  const reasons = await patientEngine.explain(survey, mode, room);
  if (current() && useWorkbench.getState().room === room)
    useWorkbench.setState({ explained: { reasons, state: viewed, mode, trials } });
  if (!current() || useWorkbench.getState().ranges) return;
  await adoptTyped();
  const ranges = await patientEngine.range({ state: viewed, mode, trials });
  if (ranges && current()) useWorkbench.setState({ ranges });
};

/** Whether the house, state, day and trials are still those that were asked about. */
const sameQuestion = (asked: Workbench) => (): boolean => {
  const now = useWorkbench.getState();
  return (
    now.job === asked.job &&
    now.gesture === asked.gesture &&
    now.viewed === asked.viewed &&
    now.mode === asked.mode &&
    now.trials[now.viewed] === asked.trials[asked.viewed]
  );
};
