import { select } from 'd3-selection';
import { type ZoomBehavior, zoom, zoomIdentity } from 'd3-zoom';
import { type RefObject, useEffect, useMemo, useRef } from 'react';
import type { Space } from './fit-plan.ts';

export type Zoom = {
  readonly by: (factor: number) => void;
  readonly pan: (dx: number, dy: number) => void;
  readonly whole: () => void;
};

/** Zooms and pans a drawing with wheel, fingers or by call; it moves one group, nothing is drawn again. */
export const useZoom = (
  svg: RefObject<SVGSVGElement | null>,
  group: RefObject<SVGGElement | null>,
  space: Space | undefined,
): Zoom => {
  const behaviour = useRef<ZoomBehavior<SVGSVGElement, unknown>>(null);
  useEffect(() => {
    if (!svg.current || !space) return;
    const extent: [[number, number], [number, number]] = [
      [0, 0],
      [space.width, space.height],
    ];
    const made = zoom<SVGSVGElement, unknown>()
      .extent(extent)
      .translateExtent(extent)
      .scaleExtent([1, 8])
      .on('zoom', ({ transform }) => group.current?.setAttribute('transform', String(transform)));
    behaviour.current = made;
    const selected = select(svg.current).call(made).on('dblclick.zoom', null);
    selected.call(made.transform, zoomIdentity);
    return () => void selected.on('.zoom', null);
  }, [svg, group, space]);
  return useMemo(() => {
    const call = (act: (zooming: ZoomBehavior<SVGSVGElement, unknown>, on: SVGSVGElement) => void) => () => {
      if (svg.current && behaviour.current) act(behaviour.current, svg.current);
    };
    return {
      by: (factor) => call((zooming, on) => zooming.scaleBy(select(on), factor))(),
      pan: (dx, dy) => call((zooming, on) => zooming.translateBy(select(on), dx, dy))(),
      whole: call((zooming, on) => zooming.transform(select(on), zoomIdentity)),
    };
  }, [svg]);
};
