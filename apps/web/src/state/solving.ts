import type { Mode } from '@airledger/engine';
import type { Job } from '@airledger/job';
import type { Trials } from '../trial/trials.ts';
import { engine } from '../worker/engine-client.ts';
import { latestWins } from '../worker/latest-wins.ts';
import type { Reading } from '../worker/read-survey.ts';
import { noTrials, useWorkbench, type Workbench } from './store.ts';

type Ask = {
  readonly edit: number;
  readonly jobId: string;
  readonly typed: Job;
  readonly trials: Trials;
  readonly mode: Mode;
  /** Asked while a hand moves. */
  readonly moving: boolean;
};
type Solver = (ask: Ask) => void;

/** While a hand moves, figures come at this pace, ms: taking one in costs the page a frame or two. */
const pace_ms = 400;

/** Lasts `pace_ms` while a gesture goes on, and ends with it. */
const rest = (): Promise<void> =>
  new Promise((done) => {
    if (!useWorkbench.getState().gesture) return done();
    const end = () => {
      clearTimeout(timer);
      unsubscribe();
      done();
    };
    const timer = setTimeout(end, pace_ms);
    const unsubscribe = useWorkbench.subscribe(({ gesture }) => !gesture && end());
  });

const solvers = new Map<string, Solver>();

const solverOf = (id: string): Solver => {
  const known = solvers.get(id);
  if (known) return known;
  const solver = latestWins<Ask, Reading>(
    (ask) => readState(id, ask),
    (reading, asked) =>
      useWorkbench.setState(({ readings, jobId }) =>
        // The answer may be late: another house may have been opened meanwhile.
        jobId === asked.jobId
          ? {
              readings: { ...readings, [id]: reading },
              failure: undefined,
              ...firstRoom(reading),
            }
          : {},
      ),
    (error) => useWorkbench.setState({ failure: String(error) }),
    rest,
  );
  solvers.set(id, solver);
  return solver;
};

/** The design day in view, then both; while a hand moves, the day in view is enough. */
async function* readState(
  id: string,
  { edit, typed, trials, mode, moving }: Ask,
): AsyncGenerator<Reading, void, undefined> {
  const { room } = useWorkbench.getState();
  const inView = await engine.read(id, typed, trials, mode, moving ? { room } : undefined);
  yield { edit, ...inView };
  if (moving) return;
  const { accounts, checks, took_ms } = await engine.readOther(id, mode);
  yield {
    edit,
    accounts: { ...inView.accounts, ...accounts },
    checks,
    took_ms: inView.took_ms,
    whole_ms: inView.took_ms + took_ms,
  };
}

/** A house that was just opened shows the room that lacks most of its air. */
const firstRoom = (reading: Reading): Partial<Workbench> => {
  const { room, mode } = useWorkbench.getState();
  const account = reading.accounts[mode];
  if (room !== undefined || !account) return {};
  const worst = account.rooms.toSorted(
    (a, b) => b.needed_m3s - b.delivered_m3s - (a.needed_m3s - a.delivered_m3s),
  )[0];
  const storey = account.survey.rooms.find(({ id }) => id === worst?.room)?.storey;
  return worst && storey !== undefined ? { room: worst.room, storey } : {};
};

/** States whose figures are on the page. */
export const statesInView = (state: Workbench): string[] => {
  const ids = state.job?.states.map(({ id }) => id) ?? [];
  return ids.filter((id) => id === state.viewed || (state.compared && state.pair.includes(id)));
};

/** Keeps the readings up with what is in view and what is tried, for as long as the page lives. */
export const keepSolved = (): void => {
  const asked = new Map<string, { base: object; trials: Trials }>();
  let edit = 0;
  useWorkbench.subscribe((state) => {
    for (const id of statesInView(state)) {
      // A survey stands for its state as typed; moves of a gesture show in the typed job alone.
      const base = state.gesture && id === state.viewed ? state.typed! : state.job!.surveys[id]!;
      const trials = state.trials[id] ?? noTrials;
      const before = asked.get(id);
      if (before?.base === base && before.trials === trials) continue;
      asked.set(id, { base, trials });
      solverOf(id)({
        edit: ++edit,
        jobId: state.jobId,
        typed: state.typed!,
        trials,
        mode: state.mode,
        moving: state.gesture !== undefined,
      });
    }
  });
};
