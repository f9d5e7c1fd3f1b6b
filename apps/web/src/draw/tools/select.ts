import type { PlanPoint } from '@airledger/engine';
import { type Handle, handlesOf } from '../handles.ts';
import { moveItems, pullHandle, splitOrJoin } from '../moves.ts';
import { hitsAt, within } from '../scene.ts';
import { isSame, type Selected } from '../selection.ts';
import type { Step, Tool, ToolContext, ToolEvent } from '../tool.ts';

/**
 * Idle; pressing, not yet moved; pulling a handle; dragging what is selected; spanning a box over what is to be
 * selected. `moved` is the way already made: a whole number of the smallest written lengths, so that nothing creeps.
 */
export type SelectState =
  | { readonly now: 'idle' }
  | {
      readonly now: 'pressing';
      readonly from: PlanPoint;
      readonly raw: PlanPoint;
      readonly hit?: Selected;
      readonly handle?: Handle;
      readonly shift: boolean;
      readonly held: readonly Selected[];
    }
  | { readonly now: 'pulling'; readonly handle: Handle; readonly moved: boolean }
  | {
      readonly now: 'dragging';
      readonly items: readonly Selected[];
      readonly from: PlanPoint;
      readonly moved: PlanPoint;
    }
  | { readonly now: 'spanning'; readonly from: PlanPoint; readonly to: PlanPoint; readonly shift: boolean };

const idle: SelectState = { now: 'idle' };
/** A hand that moves less than this has not moved, as a share of its reach. */
const still = 0.4;
/** Written lengths are whole multiples of these: 0.1 in, 1 mm. */
const written = { ip: 0.00254, si: 0.001 } as const;

const names: Readonly<Partial<Record<Selected['kind'], string>>> = {
  airHandler: 'air handler',
};
const called = (items: readonly Selected[]): string =>
  items.length === 1
    ? `${names[items[0]!.kind] ?? items[0]!.kind} ${items[0]!.id}`
    : `${items.length} things`;

const away = (a: PlanPoint, b: PlanPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const handleAt = (point: PlanPoint, { job, storey, selection, reach_m }: ToolContext): Handle | undefined =>
  handlesOf(job, storey, selection)
    .map((handle) => ({ handle, away_m: away(handle.at, point) }))
    .filter(({ away_m }) => away_m <= reach_m)
    .sort((a, b) => a.away_m - b.away_m)[0]?.handle;

const pressed = (event: Extract<ToolEvent, { kind: 'press' }>, context: ToolContext): Step<SelectState> => {
  const { raw, at, shift = false } = event.place;
  const { job, storey, selection, reach_m, writing } = context;
  const handle = handleAt(raw, context);
  if (handle && shift)
    return {
      state: idle,
      deed: {
        label: handle.part === 'side' ? 'Add a corner' : 'Take a corner away',
        change: (now) => splitOrJoin(now, handle, writing),
      },
    };
  const [hit] = hitsAt(job, storey, raw, reach_m);
  return {
    state: {
      now: 'pressing',
      from: at,
      raw,
      shift,
      held: selection,
      ...(hit && { hit }),
      ...(handle && { handle }),
    },
  };
};

/** What a drag that begins here moves; nothing: it spans a box. A room moves only when it is selected already. */
const draggedBy = (hit: Selected | undefined, held: readonly Selected[]): readonly Selected[] => {
  if (!hit) return [];
  if (held.some((item) => isSame(item, hit))) return held;
  return hit.kind === 'room' || hit.kind === 'zone' ? [] : [hit];
};

const moving = (
  state: SelectState,
  event: Extract<ToolEvent, { kind: 'move' | 'release' }>,
  context: ToolContext,
): Step<SelectState> => {
  const { at, raw } = event.place;
  const { writing, storey } = context;
  switch (state.now) {
    case 'pressing': {
      if (away(raw, state.raw) < still * context.reach_m) return { state };
      if (state.handle) return moving({ now: 'pulling', handle: state.handle, moved: false }, event, context);
      const items = state.shift ? [] : draggedBy(state.hit, state.held);
      if (items.length === 0)
        return { state: { now: 'spanning', from: state.raw, to: raw, shift: state.shift } };
      const step = moving({ now: 'dragging', items, from: state.from, moved: [0, 0] }, event, context);
      return { ...step, select: items };
    }
    case 'pulling': {
      const { handle } = state;
      return {
        state: { ...state, moved: true },
        deed: {
          label: `Reshape ${called([handle.of])}`,
          gesture: true,
          change: (now) => pullHandle(now, handle, at, writing),
        },
      };
    }
    case 'dragging': {
      const whole = (way: number): number =>
        Math.round(way / written[writing.units]) * written[writing.units];
      const way: PlanPoint = [whole(at[0] - state.from[0]), whole(at[1] - state.from[1])];
      const by: PlanPoint = [way[0] - state.moved[0], way[1] - state.moved[1]];
      if (by[0] === 0 && by[1] === 0) return { state };
      return {
        state: { ...state, moved: way },
        deed: {
          label: `Move ${called(state.items)}`,
          gesture: true,
          change: (now) => moveItems(now, state.items, by, raw, storey, writing),
        },
      };
    }
    case 'spanning':
      return { state: { ...state, to: raw } };
    default:
      return { state };
  }
};

const released = (state: SelectState, context: ToolContext): Step<SelectState> => {
  switch (state.now) {
    case 'pressing': {
      if (state.handle) return { state: idle };
      const { hit, held, shift } = state;
      if (!hit) return { state: idle, ...(!shift && { select: [] }) };
      if (!shift) return { state: idle, select: [hit] };
      const others = held.filter((item) => !isSame(item, hit));
      return { state: idle, select: others.length < held.length ? others : [...held, hit] };
    }
    case 'pulling':
    case 'dragging':
      return { state: idle, ended: 'kept' };
    case 'spanning': {
      const found = within(context.job, context.storey, [state.from, state.to]);
      const before = state.shift ? context.selection : [];
      return {
        state: idle,
        select: [...before, ...found.filter((item) => !before.some((each) => isSame(each, item)))],
      };
    }
    default:
      return { state };
  }
};

/** Selects by a click or a box, moves by a drag, reshapes by handles. */
export const selectTool: Tool<SelectState> = {
  start: idle,
  on: (state, event, context) => {
    switch (event.kind) {
      case 'press':
        return state.now === 'idle' ? pressed(event, context) : { state };
      case 'move':
        return state.now === 'idle' ? { state } : moving(state, event, context);
      case 'release': {
        const last = state.now === 'idle' ? { state } : moving(state, event, context);
        const step = released(last.state, context);
        return {
          ...step,
          ...(last.deed && { deed: last.deed }),
          ...(last.select && { select: last.select }),
        };
      }
      case 'cancel':
        if (state.now === 'pulling' || state.now === 'dragging') return { state: idle, ended: 'taken back' };
        return { state: idle, ...(state.now === 'idle' && { select: [] }) };
      default:
        return { state };
    }
  },
  preview: (state) => (state.now === 'spanning' ? { box: [state.from, state.to] } : {}),
  hint: (_, { selection }) =>
    selection.length === 0
      ? 'Click what to select; drag a box over several; Shift adds.'
      : 'Drag to move, pull the handles to reshape; Shift-click a handle to add or remove a corner. Delete removes.',
  except: (state) =>
    state.now === 'pulling' ? [state.handle.of] : state.now === 'dragging' ? state.items : [],
};
