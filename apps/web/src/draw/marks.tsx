import type { Account } from '@airledger/engine';
import { type Job, lengthText, middleOf, outlineOf, planPathOf } from '@airledger/job';
import { memo } from 'react';
import type { Format } from '../figure/format.ts';
import { measureText } from '../plan/measure-text.ts';
import { Unsaid } from '../plan/unsaid.tsx';
import { handlesOf } from './handles.ts';
import { airHandlersOn, openingsOn, partsOn, roomsOn } from './scene.ts';
import { isSame, type Selected } from './selection.ts';
import { toScreen, type View } from './view.ts';

type Props = {
  readonly job: Job;
  readonly storey: number;
  readonly view: View;
  readonly selection: readonly Selected[];
  readonly account: Account | undefined;
  readonly format: Format;
  readonly units: 'ip' | 'si';
  readonly field: boolean;
};

type NameProps = {
  readonly room: Job['rooms'][number];
  readonly view: View;
  readonly air: string | undefined;
  readonly units: 'ip' | 'si';
};

/** Name, size and air of a room, as far as they fit into it; drawn anew only when one of them changes. */
const RoomName = memo(({ room, view, air, units }: NameProps) => {
  const outline = outlineOf(room).map((point) => toScreen(view, point));
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const lines = [
    room.name ?? room.id,
    `${lengthText((right - left) / view.scale, units)} × ${lengthText((bottom - top) / view.scale, units)}`,
    ...(air === undefined ? [] : [air]),
  ].filter((line, i) => measureText(line, i === 0) < right - left - 10);
  const [x] = middleOf(outline);
  const shown = lines.slice(0, Math.max(0, Math.floor((bottom - top - 6) / 15)));
  return (
    <g className="room-name">
      {shown.map((line, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line that changes stays the line it is
        <text key={i} x={x} y={top + 16 + i * 15} className={i === 0 ? 'name' : ''}>
          {line}
        </text>
      ))}
    </g>
  );
});

/** Words and signs of one size at any zoom: names, registers, doors, windows, air handlers, handles. */
export const Marks = memo(({ job, storey, view, selection, account, format, units, field }: Props) => {
  const chosen = (item: Selected): string => (selection.some((each) => isSame(each, item)) ? ' chosen' : '');
  return (
    <Unsaid className="marks">
      {roomsOn(job, storey).map((room) => {
        const own = account?.rooms.find((each) => each.room === room.id);
        const air = own && format.of(own.delivered_m3s, own.needed_m3s, 'airflow');
        return <RoomName key={room.id} room={room} view={view} air={air} units={units} />;
      })}
      {openingsOn(job, storey).map(({ item, at, along, width_m }) => {
        const [x, y] = toScreen(view, at);
        const turn = (-Math.atan2(along[1][1] - along[0][1], along[1][0] - along[0][0]) * 180) / Math.PI;
        const half = Math.max(6, (width_m * view.scale) / 2);
        return (
          <g
            key={`${item.room ?? ''}/${item.id}`}
            className={`opening ${item.kind}${chosen(item)}`}
            transform={`translate(${x} ${y}) rotate(${turn})`}
            data-opening={item.id}
          >
            <rect x={-half} y="-4" width={2 * half} height="8" />
            {item.kind === 'window' ? (
              <path d={`M${-half} 0H${half}`} />
            ) : item.kind === 'transfer' ? (
              <path d={`M${-half / 2} -9v18M${half / 2} -9v18`} />
            ) : (
              <path d={`M${-half} 0A${half} ${half} 0 0 1 0 ${-half}L0 0`} />
            )}
          </g>
        );
      })}
      {partsOn(job, storey).map(({ part }) => {
        if (!part.terminal) return null;
        const [x, y] = toScreen(view, planPathOf(part).at(-1)!);
        return (
          <rect
            key={part.terminal.id}
            className={`terminal ${part.side === 'return' ? 'grille' : 'register'}${chosen({ kind: 'register', id: part.terminal.id })}`}
            x={x - 6}
            y={y - 4}
            width="12"
            height="8"
            rx="1.5"
          />
        );
      })}
      {airHandlersOn(job, storey).map(({ system, at }) => {
        const [x, y] = toScreen(view, at);
        return (
          <g key={system} className={`air-handler${chosen({ kind: 'airHandler', id: system })}`}>
            <rect x={x - 15} y={y - 15} width="30" height="30" rx="5" />
            <text x={x} y={y + 4.5}>
              AH
            </text>
          </g>
        );
      })}
      {handlesOf(job, storey, selection).map(({ part, index, at }) => {
        const [x, y] = toScreen(view, at);
        const size = (field ? 11 : 5) * (part === 'side' ? 0.75 : 1);
        return part === 'side' ? (
          <circle key={`side ${index}`} className="handle side" cx={x} cy={y} r={size} />
        ) : (
          <rect
            key={`corner ${index}`}
            className="handle"
            x={x - size}
            y={y - size}
            width={2 * size}
            height={2 * size}
          />
        );
      })}
    </Unsaid>
  );
});
