import type { Account, Dimension } from '@airledger/engine';
import { useMemo } from 'react';
import { useFormat } from '../figure/use-format.ts';
import type { Space } from '../plan/fit-plan.ts';
import { chooseRoom } from '../state/actions.ts';
import { useWorkbench } from '../state/store.ts';
import { lossSentence, sourceWords } from './account-words.ts';
import { flowLayout } from './flow-layout.ts';
import type { Streams } from './streams.ts';

/** The account to scale: from the air handler to rooms, losses falling out below, missing air dashed. */
export const FlowDiagram = ({
  account,
  streams,
  dimension,
  space,
}: {
  account: Account;
  streams: Streams;
  dimension: Dimension;
  space: Space;
}) => {
  const format = useFormat();
  const chosen = useWorkbench((state) => state.room);
  const { source, rooms, losses } = useMemo(() => flowLayout(streams.streams, space), [streams, space]);
  const [title, ...lines] = sourceWords(account, streams, dimension, format);
  const said = `${title}: ${lines.join(', ')}. To rooms: ${rooms
    .map(({ stream }) => `${stream.name} ${format.full(stream.value, dimension, 0)}`)
    .join(', ')}. ${lossSentence(account, streams, dimension, format)}`;
  return (
    <svg className="flow" role="img" aria-label={said} width={space.width} height={space.height}>
      <rect {...source} className="flow-source" />
      <text x={source.x - 10} y={source.y + 14} className="flow-words end strong">
        {title}
      </text>
      {lines.map((line, i) => (
        <text
          key={line}
          x={source.x - 10}
          y={source.y + 32 + i * 16}
          className={i === 0 ? 'flow-words end' : 'flow-words end faint'}
        >
          {line}
        </text>
      ))}
      {losses.map((band) => (
        <g key={band.stream.id}>
          <path d={band.path} className="flow-loss" />
          <text x={band.label.x} y={band.label.y} className="flow-words middle small">
            {band.stream.name}
            <tspan className="strong" x={band.label.x} dy="15">
              {format.bare(band.stream.value, dimension, 0)}
            </tspan>
          </text>
        </g>
      ))}
      {rooms.map(({ stream, path, end, missingHeight, label }, place) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: a short cut for the mouse; the plan and the table are the keyboard's way
        <g
          // biome-ignore lint/suspicious/noArrayIndexKey: where rooms change places, nothing has to be put in anew
          key={place}
          className={stream.id === chosen ? 'flow-room chosen' : 'flow-room'}
          onClick={() => chooseRoom(stream.id)}
        >
          <path
            d={path}
            style={{
              fill: `color-mix(in oklab, var(--ribbon) ${Math.round(100 * stream.strength)}%, var(--ribbon-faded))`,
            }}
          />
          <rect {...end} className="flow-end" />
          {missingHeight > 0.5 && (
            <rect
              x={end.x}
              y={end.y + end.height}
              width={end.width}
              height={missingHeight}
              className="flow-missing"
            />
          )}
          <text x={label.x} y={label.y + 4} className="flow-words">
            {stream.name} <tspan className="strong">{format.bare(stream.value, dimension, 0)}</tspan>
            {format.bare(stream.missing, dimension, 0) !== '0' && (
              <tspan className="flow-short"> −{format.bare(stream.missing, dimension, 0)}</tspan>
            )}
          </text>
        </g>
      ))}
      <text x={source.x + source.width + 30} y={space.height - 6} className="flow-words small faint">
        {lossSentence(account, streams, dimension, format)}
      </text>
    </svg>
  );
};
