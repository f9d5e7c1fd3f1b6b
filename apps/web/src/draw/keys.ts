import type { PlanPoint } from '@airledger/engine';
import {
  copySelected,
  deleteSelected,
  nudgeSelected,
  pasteCopied,
  selectAll,
  zoomToAll,
  zoomToSelection,
} from './commands.ts';
import { takeTool, useDraw } from './draw-store.ts';
import { contextNow, gridOf, hear, placeAt } from './hear.ts';
import { isSame } from './selection.ts';
import { toolList } from './tool-list.ts';
import type { SelectState } from './tools/select.ts';
import { tools } from './tools.ts';
import { panned, toPlan, toScreen, zoomed } from './view.ts';

const arrows: Readonly<Record<string, PlanPoint>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Steps of the grid that Shift makes of one. */
const leap = 10;

/** Moves the crosshair by steps of the grid; the view follows it. */
const step = ([east, north]: PlanPoint, far: boolean): void => {
  const { view, size, place } = useDraw.getState();
  const context = contextNow();
  if (!view || !size || !context) return;
  const grid = gridOf[context.writing.units];
  const on = (value: number): number => Math.round(value / grid) * grid;
  const from = place?.raw ?? toPlan(view, [size.width / 2, size.height / 2]);
  const count = far ? leap : 1;
  const raw: PlanPoint = [on(from[0]) + east * grid * count, on(from[1]) + north * grid * count];
  const next = placeAt(raw, { within_m: grid * 0.49 });
  const [x, y] = toScreen(view, raw);
  const edge = 30;
  const dx = x < edge ? edge - x : x > size.width - edge ? size.width - edge - x : 0;
  const dy = y < edge ? edge - y : y > size.height - edge ? size.height - edge - y : 0;
  useDraw.setState({ place: next, byKeys: true, ...((dx || dy) && { view: panned(view, dx, dy) }) });
  hear({ kind: 'move', place: next });
};

/** Enter: a click at the crosshair. What is selected already it lifts, and puts down the next time. */
const enter = (shift: boolean): void => {
  // The first key of all puts the crosshair in the middle.
  if (!useDraw.getState().place) step([0, 0], false);
  const { place, toolId } = useDraw.getState();
  if (!place) return;
  const at = { ...place, shift };
  if (toolId !== 'select') {
    hear({ kind: 'press', place: at });
    hear({ kind: 'release', place: at });
    return;
  }
  const before = useDraw.getState().toolState as SelectState | undefined;
  if (before && before.now !== 'idle') {
    hear({ kind: 'release', place: at });
    return;
  }
  hear({ kind: 'press', place: at });
  const now = useDraw.getState().toolState as SelectState | undefined;
  if (now?.now !== 'pressing') return;
  const { hit, handle, held } = now;
  const lifted = handle !== undefined || (hit !== undefined && held.some((item) => isSame(item, hit)));
  if (lifted && !shift)
    useDraw.setState({ note: 'Lifted: arrow keys move it, Enter puts it down, Escape takes it back.' });
  else hear({ kind: 'release', place: at });
};

const stop = (): void => {
  const { toolId, toolState } = useDraw.getState();
  const start = tools[toolId].start;
  const idle = toolState === undefined || JSON.stringify(toolState) === JSON.stringify(start);
  if (idle && toolId !== 'select') takeTool('select');
  else hear({ kind: 'cancel' });
  useDraw.setState({ note: undefined, offers: undefined, confirm: undefined });
};

const withControl = (key: string, arrow: PlanPoint | undefined): boolean => {
  if (arrow) nudgeSelected(...arrow);
  else if (key === 'c') copySelected();
  else if (key === 'v') pasteCopied();
  else if (key === 'x') {
    copySelected();
    deleteSelected();
  } else if (key === 'a') selectAll();
  else return false;
  return true;
};

const back = (): void => {
  const { toolId } = useDraw.getState();
  if (toolId === 'select') deleteSelected();
  else hear({ kind: 'back' });
};

type Key = Pick<
  KeyboardEvent,
  'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey' | 'preventDefault' | 'stopPropagation'
>;

const plain = (event: Key): boolean => {
  const { key, shiftKey } = event;
  const middle = (): PlanPoint => {
    const { size } = useDraw.getState();
    return [(size?.width ?? 0) / 2, (size?.height ?? 0) / 2];
  };
  const zoom = (factor: number) =>
    useDraw.setState(({ view }) => (view ? { view: zoomed(view, factor, middle()) } : {}));
  const arrow = arrows[key];
  if (arrow) step(arrow, shiftKey);
  else if (key === 'Enter') enter(shiftKey);
  else if (key === 'Escape') stop();
  else if (key === 'Backspace') back();
  else if (key === 'Delete') deleteSelected(shiftKey ? 'delete' : 'refuse');
  else if (key === '+' || key === '=') zoom(1.3);
  else if (key === '-') zoom(1 / 1.3);
  else if (key.toLowerCase() === 'f') zoomToSelection();
  else if (key.toLowerCase() === 'h') zoomToAll();
  else {
    const tool = toolList.find((each) => each.key === key.toUpperCase());
    if (!tool) return false;
    takeTool(tool.id);
  }
  return true;
};

/** Keys of the drawing. Digits go to the typed fields, which the bar shows while there is something to type. */
export const onDrawingKey = (event: Key): void => {
  if (event.altKey) return;
  const control = event.ctrlKey || event.metaKey;
  if (!control && /^[\d.]$/.test(event.key)) {
    // The digit itself lands in the field that has the focus by then.
    const field = document.querySelector<HTMLInputElement>('.draw-typed input');
    if (field) {
      field.focus();
      field.select();
      event.stopPropagation();
      return;
    }
    if (event.key === '0') zoomToAll();
    return;
  }
  const handled = control ? withControl(event.key.toLowerCase(), arrows[event.key]) : plain(event);
  if (!handled) return;
  event.preventDefault();
  event.stopPropagation();
};

/** The same keys work elsewhere on the page, but for those that what has the focus needs itself. */
export const onPageKey = (event: KeyboardEvent): void => {
  const { target, key } = event;
  if (!(target instanceof Element) || target.closest('input, select, textarea, [role="dialog"]')) return;
  const atRest = target === document.body || target.id === 'work';
  if (atRest || /^([a-z]|Delete|Escape)$/i.test(key)) onDrawingKey(event);
};
