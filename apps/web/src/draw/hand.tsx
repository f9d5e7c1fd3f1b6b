import type { PlanPoint } from '@airledger/engine';
import { lengthText } from '@airledger/job';
import { closed, open } from '../plan/ribbon-shape.ts';
import { Unsaid } from '../plan/unsaid.tsx';
import { useDraw } from './draw-store.ts';
import { contextNow } from './hear.ts';
import { tools } from './tools.ts';
import { toScreen, type View } from './view.ts';

/** What the hand is doing: the unfinished drawing with its measures, what attracted the pointer, and the crosshair. */
export const Hand = ({ view, units }: { view: View; units: 'ip' | 'si' }) => {
  const { toolId, toolState, place, byKeys, size } = useDraw();
  const context = contextNow();
  if (!context) return null;
  const tool = tools[toolId];
  const preview = tool.preview(toolState ?? tool.start, place, context);
  const on = (point: PlanPoint): PlanPoint => toScreen(view, point);
  const at = place && on(place.at);
  return (
    <Unsaid className="hand">
      {preview.outline && <path className="unfinished closed" d={closed(preview.outline.map(on))} />}
      {preview.line && <path className="unfinished" d={open(preview.line.map(on))} />}
      {preview.box && <Box from={on(preview.box[0])} to={on(preview.box[1])} />}
      {preview.dots?.map(on).map(([x, y]) => (
        <circle key={`${x} ${y}`} className="dot" cx={x} cy={y} r="3.5" />
      ))}
      {preview.measures
        ?.filter(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1]) > 0.02)
        .map(({ from, to }) => {
          const [[x1, y1], [x2, y2]] = [on(from), on(to)];
          return (
            <text
              key={`${x1} ${y1} ${x2} ${y2}`}
              className="measure"
              x={(x1 + x2) / 2 + (Math.abs(x2 - x1) < Math.abs(y2 - y1) ? 8 : 0)}
              y={(y1 + y2) / 2 - 7}
              textAnchor={Math.abs(x2 - x1) < Math.abs(y2 - y1) ? 'start' : 'middle'}
            >
              {lengthText(Math.hypot(to[0] - from[0], to[1] - from[1]), units)}
            </text>
          );
        })}
      {at && place.on !== 'nothing' && place.on !== 'grid' && toolId !== 'select' && (
        <Guide at={at} on={place.on} size={size} />
      )}
      {at && (byKeys || toolId !== 'select') && (
        <path
          className={byKeys ? 'crosshair' : 'crosshair faint'}
          d={`M${at[0] - 14} ${at[1]}H${at[0] + 14}M${at[0]} ${at[1] - 14}V${at[1] + 14}`}
        />
      )}
    </Unsaid>
  );
};

/** What the pointer was drawn to: a ring on a point, a cross on a line, long lines when level or upright. */
const Guide = ({
  at: [x, y],
  on,
  size,
}: {
  at: PlanPoint;
  on: 'point' | 'line' | 'square';
  size: { width: number; height: number } | undefined;
}) => {
  if (on === 'point') return <circle className="guide" cx={x} cy={y} r="9" />;
  if (on === 'line')
    return <path className="guide" d={`M${x - 6} ${y - 6}l12 12M${x - 6} ${y + 6}l12 -12`} />;
  return <path className="guide long" d={`M0 ${y}H${size?.width ?? 0}M${x} 0V${size?.height ?? 0}`} />;
};

const Box = ({ from, to }: { from: PlanPoint; to: PlanPoint }) => (
  <rect
    className="marquee"
    x={Math.min(from[0], to[0])}
    y={Math.min(from[1], to[1])}
    width={Math.abs(to[0] - from[0])}
    height={Math.abs(to[1] - from[1])}
  />
);
