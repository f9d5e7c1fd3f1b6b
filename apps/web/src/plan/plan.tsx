import type { Account } from '@airledger/engine';
import { type KeyboardEvent, useId, useMemo, useRef, useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { useWorkbench } from '../state/store.ts';
import { drawPlan } from './drawing.ts';
import { boxAround, boxCentre, pointAlong } from './geometry.ts';
import { HatchPattern } from './hatch-pattern.tsx';
import { measureText } from './measure-text.ts';
import { type Direction, nearest, type Spot } from './nearest.ts';
import { PlanDrop } from './plan-drop.tsx';
import { ribbonLabel, roomLabel } from './plan-names.ts';
import { PlanRibbon } from './plan-ribbon.tsx';
import { PlanRoom, PlanRoomWords } from './plan-room.tsx';
import { type PlanWords, planWords } from './plan-words.ts';
import { closed } from './ribbon-shape.ts';
import { Unsaid } from './unsaid.tsx';
import { useSize } from './use-size.ts';
import { useZoom, type Zoom } from './use-zoom.ts';
import './plan.css';

/** One storey of the house to scale: rooms, and the air in its ducts as ribbons. */
export const Plan = ({ account, storey, label }: { account: Account; storey: number; label: string }) => {
  const [frame, size] = useSize<HTMLDivElement>();
  const svg = useRef<SVGSVGElement>(null);
  const moved = useRef<SVGGElement>(null);
  const zoom = useZoom(svg, moved, size);
  const format = useFormat();
  const hatch = useId();
  const room = useWorkbench((state) => state.room);
  const part = useWorkbench((state) => state.part);
  const drawing = useMemo(() => size && drawPlan(account, storey, size), [account, storey, size]);
  const before = useRef<PlanWords>(undefined);
  const words = useMemo(() => {
    if (!drawing) return undefined;
    before.current = planWords(account, drawing, format, measureText, before.current);
    return before.current;
  }, [account, drawing, format]);
  const spots = useMemo(
    (): Spot[] => [
      ...(drawing?.rooms ?? []).map(({ id, outline }) => ({
        id: `room/${id}`,
        at: boxCentre(boxAround(outline)),
      })),
      ...(drawing?.ribbons ?? []).map((ribbon) => ({
        id: `part/${ribbon.part.id}`,
        at: pointAlong(ribbon.path, 0.5).point,
      })),
    ],
    [drawing],
  );
  const [visited, setVisited] = useState<string>();
  const chosen = part ? `part/${part}` : `room/${room}`;
  const reachable = [visited, chosen].find((id) => spots.some((spot) => spot.id === id)) ?? spots[0]?.id;

  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const at = (event.target as Element).closest('[data-spot]')?.getAttribute('data-spot');
    if (event.key.startsWith('Arrow') && !event.shiftKey && at) {
      const next = nearest(spots, at, event.key as Direction);
      if (next) svg.current?.querySelector<SVGGElement>(`[data-spot="${CSS.escape(next)}"]`)?.focus();
    } else if (!zoomByKey(zoom, event)) return;
    event.preventDefault();
  };

  return (
    <div className="plan" ref={frame}>
      {drawing && words && size && (
        <>
          {/* biome-ignore lint/a11y/useSemanticElements: a drawing whose parts are buttons is a group */}
          <svg
            ref={svg}
            role="group"
            aria-label={label}
            width={size.width}
            height={size.height}
            onKeyDown={onKeyDown}
            onFocus={(event) => {
              const at = (event.target as Element).getAttribute('data-spot');
              if (at) setVisited(at);
            }}
          >
            <HatchPattern id={hatch} />
            <g ref={moved}>
              {drawing.rooms.map((each) => (
                <PlanRoom
                  key={each.id}
                  room={each}
                  name={roomLabel(account, each.id, format)}
                  chosen={each.id === room}
                  reachable={reachable === `room/${each.id}`}
                />
              ))}
              {drawing.rooms
                .filter((each) => each.id === room)
                .map((each) => (
                  <path key={each.id} className="chosen-room" d={closed(each.outline)} />
                ))}
              {drawing.ribbons.map((ribbon) => (
                <PlanRibbon
                  key={ribbon.part.id}
                  ribbon={ribbon}
                  label={ribbonLabel(ribbon, drawing, format)}
                  chosen={ribbon.part.id === part}
                  reachable={reachable === `part/${ribbon.part.id}`}
                  hatch={hatch}
                />
              ))}
              {drawing.terminals.map(({ part: owner, at, kind }) => (
                <rect
                  key={owner.id}
                  className={`terminal ${kind}`}
                  x={at[0] - 6}
                  y={at[1] - 4}
                  width="12"
                  height="8"
                  rx="1.5"
                />
              ))}
              {drawing.airHandlers.map(({ system, box }) => (
                <Unsaid key={system} className="air-handler">
                  <rect {...box} rx="5" />
                  <text x={box.x + box.width / 2} y={box.y + box.height / 2 + 4.5}>
                    AH
                  </text>
                </Unsaid>
              ))}
              {drawing.drops.map((drop) => (
                <PlanDrop key={drop.id} drop={drop} />
              ))}
              <Unsaid className="drop-figures">
                {words.drops.map(({ id, words: figure, at: [x, y] }) => (
                  <text key={id} className="drop-words" x={x} y={y}>
                    {figure}
                  </text>
                ))}
              </Unsaid>
              {words.rooms.map((each) => (
                <PlanRoomWords
                  key={each.id}
                  words={each}
                  room={drawing.rooms.find(({ id }) => id === each.id)!}
                />
              ))}
            </g>
          </svg>
          <ZoomButtons zoom={zoom} place={drawing.buttons} />
          {drawing.undrawn > 0 && (
            <p className="plan-note quiet">
              {drawing.undrawn} ducts of this storey have no path on the plan.
            </p>
          )}
        </>
      )}
    </div>
  );
};

const zoomByKey = (zoom: Zoom, { key, shiftKey }: KeyboardEvent): boolean => {
  const step = 60;
  if (key === '+' || key === '=') zoom.by(1.3);
  else if (key === '-') zoom.by(1 / 1.3);
  else if (key === '0') zoom.whole();
  else if (shiftKey && key === 'ArrowLeft') zoom.pan(step, 0);
  else if (shiftKey && key === 'ArrowRight') zoom.pan(-step, 0);
  else if (shiftKey && key === 'ArrowUp') zoom.pan(0, step);
  else if (shiftKey && key === 'ArrowDown') zoom.pan(0, -step);
  else return false;
  return true;
};

const ZoomButtons = ({ zoom, place }: { zoom: Zoom; place: 'beside' | 'below' }) => (
  <div className={`zoom-buttons ${place}`}>
    <button type="button" aria-label="Zoom in" title="Zoom in (+)" onClick={() => zoom.by(1.4)}>
      +
    </button>
    <button type="button" aria-label="Zoom out" title="Zoom out (−)" onClick={() => zoom.by(1 / 1.4)}>
      −
    </button>
    <button type="button" aria-label="Whole plan" title="Whole plan (0)" onClick={zoom.whole}>
      ⤢
    </button>
  </div>
);
