import { formatQuantity, type UnitSystem } from '@airledger/engine';
import { columnNumber } from './column-number.ts';
import type { FlowStream } from './flow-streams.ts';

export type FlowDiagramProps = {
  readonly title: string;
  readonly streams: readonly FlowStream[];
  /** Air that the full height stands for, m³/s; see `flowExtent`. */
  readonly extent_m3s: number;
  readonly units: UnitSystem;
};

const width = 720;
const source = { x: 128, width: 12 };
const ends = { x: 470, width: 10 };
const top = 6;
const bandsHeight = 210;
const lineHeight = 15;
const bottom = 50;

/**
 * Air from the air handlers to rooms, to scale: what is lost falls out below, what a room lacks is a dashed box.
 * Plain SVG without a DOM; colours come from the style sheet around it.
 */
export const FlowDiagram = ({ title, streams, extent_m3s, units }: FlowDiagramProps) => {
  const rooms = streams.filter(({ kind }) => kind === 'room');
  const lost = streams.filter(({ kind }) => kind === 'lost');
  const scale = extent_m3s > 0 ? bandsHeight / extent_m3s : 0;
  const height = Math.max(bandsHeight + 3 * rooms.length, lineHeight * rooms.length) + top + bottom;
  const given = streams.reduce((sum, { flow_m3s }) => sum + flow_m3s, 0);
  const cfm = (flow: number, digits?: number) => formatQuantity(flow, 'airflow', units, digits);
  const toRooms = stack(rooms, scale, height - top - bottom);
  const labels = spread(toRooms.map(({ to, tall }) => to + tall / 2));
  const foot = height - bottom + 16;
  let falls = top + toRooms.reduce((sum, { size }) => sum + size, 0);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={title} className="flow">
      <rect
        className="source"
        x={source.x}
        y={top}
        width={source.width}
        height={Math.max(1, given * scale)}
      />
      <text x={source.x - 8} y={top + 12} textAnchor="end" className="strong">
        Air handler
      </text>
      <text x={source.x - 8} y={top + 28} textAnchor="end">
        {cfm(given)}
      </text>
      {toRooms.map(({ stream, from, to, size, tall }, r) => (
        <g key={stream.id}>
          <path className="band" d={across(from, to, size)} />
          <rect className="end" x={ends.x} y={to} width={ends.width} height={size} />
          {tall > size && (
            <rect className="lacks" x={ends.x} y={to + size} width={ends.width} height={tall - size} />
          )}
          <text x={ends.x + ends.width + 8} y={labels[r]! + 4}>
            <tspan className="strong">{stream.name}</tspan> {columnNumber(stream.flow_m3s, 'airflow', units)}{' '}
            of {cfm(stream.needed_m3s)}
          </text>
        </g>
      ))}
      {lost.map((stream, l) => {
        const size = stream.flow_m3s * scale;
        // The lowest strip falls first, so that no falling strip crosses another.
        const x = source.x + source.width + 18 + (lost.length - 1 - l) * 150;
        const d = falling(falls, x, foot, size);
        falls += size;
        return (
          <g key={stream.id}>
            <path className="falls" d={d} />
            <text x={x} y={foot + 15}>
              lost to {stream.name}
            </text>
            <text x={x} y={foot + 30} className="strong">
              {cfm(stream.flow_m3s, 1)}
            </text>
          </g>
        );
      })}
    </svg>
  );
};

/** Where the band of each room leaves and ends; what is spare of the height goes between the ends. */
const stack = (rooms: readonly FlowStream[], scale: number, height: number) => {
  const tallOf = (stream: FlowStream) => Math.max(stream.flow_m3s, stream.needed_m3s) * scale;
  const spare = height - rooms.reduce((sum, stream) => sum + tallOf(stream), 0);
  const gap = rooms.length > 1 ? Math.max(0, spare) / (rooms.length - 1) : 0;
  let from = top;
  let to = top;
  return rooms.map((stream) => {
    const size = stream.flow_m3s * scale;
    const band = { stream, from, to, size, tall: tallOf(stream) };
    from += size;
    to += band.tall + gap;
    return band;
  });
};

/** Label heights at least a line apart, in order, each as near to its band as that allows. */
const spread = (wished: readonly number[]): readonly number[] => {
  const placed = [...wished];
  for (let i = 1; i < placed.length; i++) placed[i] = Math.max(placed[i]!, placed[i - 1]! + lineHeight);
  return placed;
};

const across = (from: number, to: number, size: number): string => {
  const x0 = source.x + source.width;
  const x1 = ends.x;
  const bend = (x1 - x0) * 0.45;
  return `M${n(x0)} ${n(from)}C${n(x0 + bend)} ${n(from)} ${n(x1 - bend)} ${n(to)} ${n(x1)} ${n(to)}v${n(size)}C${n(x1 - bend)} ${n(to + size)} ${n(x0 + bend)} ${n(from + size)} ${n(x0)} ${n(from + size)}Z`;
};

const falling = (from: number, x: number, foot: number, size: number): string => {
  const x0 = source.x + source.width;
  const radius = 14;
  return `M${n(x0)} ${n(from)}H${n(x - radius + size)}q${radius} 0 ${radius} ${radius}V${n(foot)}H${n(x)}V${n(from + size + radius)}q0 ${-radius} ${-radius} ${-radius}H${n(x0)}Z`;
};

const n = (value: number): number => Math.round(value * 10) / 10;
