import type { PlanPoint } from '@airledger/engine';
import { applyState, type Job, snapPoint } from '@airledger/job';
import { type EditResult, edit, endGesture, undo } from '../document/document.ts';
import { useWorkbench } from '../state/store.ts';
import { useDraw } from './draw-store.ts';
import { attractors } from './scene.ts';
import { select, selection } from './selection.ts';
import type { Deed, Place, ToolContext, ToolEvent } from './tool.ts';
import { tools } from './tools.ts';

/** How far a hand may miss, px. */
const reach_px = { mouse: 9, field: 22 };
/** Spacing of the grid, m: half a foot, or a decimetre. */
export const gridOf = { ip: 0.1524, si: 0.1 } as const;

/** The house that is drawn on. */
export const jobNow = (): Job | undefined => {
  const { typed, viewed } = useWorkbench.getState();
  return typed && applyState(typed, viewed);
};

export const contextNow = (): ToolContext | undefined => {
  const job = jobNow();
  const { storey, units } = useWorkbench.getState();
  const { view, options, field } = useDraw.getState();
  if (!job) return undefined;
  return {
    job,
    storey,
    writing: { units },
    reach_m: (field ? reach_px.field : reach_px.mouse) / (view?.scale ?? 40),
    options,
    selection: selection(),
  };
};

/** Gestures that have ended: each one is a step of history of its own. */
let gestures = 0;

let attracted: { job: Job; storey: number; except: string; to: ReturnType<typeof attractors> } | undefined;

const attractorsFor = (job: Job, storey: number, except: ReturnType<typeof selection>) => {
  const key = `${gestures} ${JSON.stringify(except)}`;
  // While a thing is dragged the job changes with every move, but what attracts it does not.
  const same = attracted?.storey === storey && attracted.except === key;
  if (attracted && same && (attracted.job === job || except.length > 0)) return attracted.to;
  attracted = { job, storey, except: key, to: attractors(job, storey, except) };
  return attracted.to;
};

/** A point of the plan as the tool in hand sees it: drawn to what is near. */
export const placeAt = (
  raw: PlanPoint,
  { shift = false, within_m }: { readonly shift?: boolean; readonly within_m?: number } = {},
): Place => {
  const context = contextNow();
  const { toolId, toolState, snaps } = useDraw.getState();
  if (!context || !snaps) return { raw, at: raw, on: 'nothing', shift };
  const tool = tools[toolId];
  const state = toolState ?? tool.start;
  const from = tool.from?.(state);
  const { points, lines } = attractorsFor(context.job, context.storey, tool.except?.(state) ?? []);
  const grid_m = gridOf[context.writing.units];
  const snapped = snapPoint(raw, {
    within_m: within_m ?? context.reach_m,
    // The last point of a line attracts, so that it is easy to click once more.
    points: from ? [...points, from] : points,
    lines,
    grid_m,
    ...(from && { from }),
  });
  return { raw, at: snapped.point, on: snapped.on, shift };
};

const wordsOf = (result: EditResult): string | undefined =>
  result.ok ? undefined : result.errors.map(({ message }) => message).join(' ');

/** Does a deed; what is wrong with it in words, if anything. */
export const perform = (deed: Deed): string | undefined => {
  const options = deed.gesture ? { gesture: `draw ${gestures}` } : undefined;
  const problem = wordsOf(edit(deed.label, deed.change, options));
  if (problem === undefined && deed.select) select(deed.select);
  return problem;
};

/** Lets the tool in hand hear an event, and does what it says. */
export const hear = (event: ToolEvent): void => {
  const context = contextNow();
  if (!context) return;
  const { toolId, toolState, note: before } = useDraw.getState();
  const tool = tools[toolId];
  const step = tool.on(toolState ?? tool.start, event, context);
  const quiet = event.kind === 'move' || event.kind === 'release';
  let note = step.note ?? (quiet ? before : undefined);
  let state = step.state;
  if (step.deed) {
    const problem = perform(step.deed);
    if (problem !== undefined) {
      note = problem;
      // What was drawn stays in hand, to be corrected.
      if (!step.deed.gesture) state = toolState ?? tool.start;
    } else if (step.deed.confirm) useDraw.setState({ confirm: step.deed.confirm });
    else if (!step.deed.gesture) useDraw.setState({ confirm: undefined });
  }
  if (step.ended) {
    note = wordsOf(endGesture()) ?? note;
    gestures++;
    if (step.ended === 'taken back') undo();
  }
  if (step.select) select(step.select);
  if (state !== toolState || note !== before)
    useDraw.setState({ toolState: state, note, ...(!quiet && { offers: undefined }) });
};
