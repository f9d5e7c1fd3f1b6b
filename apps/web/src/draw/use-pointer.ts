import type { PlanPoint } from '@airledger/engine';
import { type PointerEvent as ReactPointerEvent, type RefObject, useEffect, useMemo, useRef } from 'react';
import { useDraw } from './draw-store.ts';
import { hear, placeAt } from './hear.ts';
import type { Place } from './tool.ts';
import { panned, toPlan, zoomed } from './view.ts';

/** A finger that moves less than this, px, has only touched. */
const touched_px = 6;

type Handlers = Pick<
  React.SVGAttributes<SVGSVGElement>,
  'onPointerDown' | 'onPointerMove' | 'onPointerUp' | 'onPointerCancel' | 'onContextMenu'
>;

/**
 * What pointers do on the drawing. A mouse button, pen or one finger draws; the middle or right button, the space bar
 * held, or two fingers move the view; the wheel and two fingers zoom.
 */
export const usePointer = (svg: RefObject<SVGSVGElement | null>, drawn: boolean): Handlers => {
  const space = useRef(false);
  useEffect(() => {
    const element = svg.current;
    // The drawing is not there before its place on the page has been measured.
    if (!drawn || !element) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const at = pointIn(element, event);
      const factor = Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0016));
      changeView((view) => (event.shiftKey ? panned(view, -event.deltaY, 0) : zoomed(view, factor, at)));
    };
    const onSpace = (event: KeyboardEvent) => {
      if (event.key === ' ') space.current = event.type === 'keydown';
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    window.addEventListener('keydown', onSpace);
    window.addEventListener('keyup', onSpace);
    return () => {
      element.removeEventListener('wheel', onWheel);
      window.removeEventListener('keydown', onSpace);
      window.removeEventListener('keyup', onSpace);
    };
  }, [svg, drawn]);
  return useMemo(() => handlers(svg, space), [svg]);
};

const pointIn = (element: Element, { clientX, clientY }: { clientX: number; clientY: number }): PlanPoint => {
  const { left, top } = element.getBoundingClientRect();
  return [clientX - left, clientY - top];
};

const changeView = (
  change: (view: NonNullable<ReturnType<typeof useDraw.getState>['view']>) => typeof view,
) => useDraw.setState(({ view }) => (view ? { view: change(view) } : {}));

const handlers = (svg: RefObject<SVGSVGElement | null>, space: RefObject<boolean>): Handlers => {
  const down = new Map<number, PlanPoint>();
  let panning = false;
  /** A press of a finger waits until it is sure that no second one comes. */
  let waiting: Place | undefined;
  /** Moves within one frame are one. */
  let latest: Place | undefined;

  const placeOf = (event: ReactPointerEvent): Place | undefined => {
    const { view } = useDraw.getState();
    if (!view || !svg.current) return undefined;
    return placeAt(toPlan(view, pointIn(svg.current, event)), { shift: event.shiftKey });
  };
  const show = (place: Place) => useDraw.setState({ place, byKeys: false });
  const follow = () => {
    const place = latest;
    latest = undefined;
    if (!place) return;
    show(place);
    hear({ kind: 'move', place });
  };
  const flush = () => {
    if (waiting) hear({ kind: 'press', place: waiting });
    waiting = undefined;
  };

  return {
    onContextMenu: (event) => event.preventDefault(),
    onPointerDown: (event) => {
      if (!svg.current) return;
      svg.current.setPointerCapture(event.pointerId);
      svg.current.focus({ preventScroll: true });
      down.set(event.pointerId, pointIn(svg.current, event));
      if (event.button > 0 || space.current || down.size > 1) {
        panning = true;
        waiting = undefined;
        return;
      }
      const place = placeOf(event);
      if (!place) return;
      show(place);
      if (event.pointerType === 'touch') waiting = place;
      else hear({ kind: 'press', place });
    },
    onPointerMove: (event) => {
      if (!svg.current) return;
      const now = pointIn(svg.current, event);
      const before = down.get(event.pointerId);
      if (panning && before) {
        const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
        if (other) {
          const factor =
            Math.hypot(now[0] - other[0], now[1] - other[1]) /
            Math.max(1, Math.hypot(before[0] - other[0], before[1] - other[1]));
          const middle: PlanPoint = [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2];
          changeView((view) =>
            zoomed(panned(view, (now[0] - before[0]) / 2, (now[1] - before[1]) / 2), factor, middle),
          );
        } else changeView((view) => panned(view, now[0] - before[0], now[1] - before[1]));
        down.set(event.pointerId, now);
        return;
      }
      if (waiting && before && Math.hypot(now[0] - before[0], now[1] - before[1]) < touched_px) return;
      flush();
      const place = placeOf(event);
      if (!place) return;
      if (!latest) requestAnimationFrame(follow);
      latest = place;
    },
    onPointerUp: (event) => {
      const drew = down.delete(event.pointerId) && !panning;
      if (down.size === 0) panning = false;
      latest = undefined;
      if (!drew) return;
      flush();
      const place = placeOf(event);
      if (place) hear({ kind: 'release', place });
    },
    onPointerCancel: (event) => {
      down.delete(event.pointerId);
      waiting = undefined;
      if (down.size === 0) panning = false;
      hear({ kind: 'cancel' });
    },
  };
};
