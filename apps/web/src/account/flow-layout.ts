/** One stream out of the air handler: to a room, or lost on the way. Values share one unit and are ≥ 0. */
export type Stream = {
  readonly id: string;
  readonly name: string;
  readonly kind: 'room' | 'loss';
  readonly value: number;
  /** For a room: what it lacks of its need (≥ 0). */
  readonly missing: number;
  /** Strength of the colour, 1 = as it left the air handler. */
  readonly strength: number;
};

export type Band = {
  readonly stream: Stream;
  readonly path: string;
  /** Where the band ends: for a room its bar on the right, for a loss its foot at the bottom. */
  readonly end: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly missingHeight: number;
  /** Where its words go; a room's words are spread so that none overlap. */
  readonly label: { readonly x: number; readonly y: number };
};

export type FlowLayout = {
  readonly source: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
  readonly rooms: readonly Band[];
  readonly losses: readonly Band[];
  /** Screen height of one unit of value. */
  readonly scale: number;
};

export type FlowSpace = { readonly width: number; readonly height: number };

const left = 156;
const barWidth = 14;
const endWidth = 10;
/** Room for the words on the right: a name, a figure and what is missing. */
const fewestWords = 150;
const mostWords = 250;
const top = 8;
const lossFoot = 54;
const fallRoom = 34;
const roomGap = 4;
const lineHeight = 17;
/** Kept free at the bottom for the sentence that sums up the losses. */
const lastLine = 26;

/** Lays streams out to scale: rooms to the right, the shortest of air first, losses fall out below. */
export const flowLayout = (streams: readonly Stream[], space: FlowSpace): FlowLayout => {
  const rooms = streams
    .filter((stream) => stream.kind === 'room' && stream.value + stream.missing > 0)
    .toSorted((a, b) => b.missing - a.missing || b.value - a.value);
  const losses = streams.filter((stream) => stream.kind === 'loss' && stream.value > 0);
  const given = total(rooms, 'value') + total(losses, 'value');
  const usable = Math.max(40, space.height - top - lossFoot - fallRoom);
  const gaps = roomGap * Math.max(0, rooms.length - 1);
  const wanted = given + total(rooms, 'missing');
  const scale = wanted > 0 ? Math.max(0, usable - gaps) / wanted : 0;
  // Where the rooms' strip leaves, it ends as low as the last room does: so no falling stream crosses a room's.
  const roomsHeight = (total(rooms, 'value') + total(rooms, 'missing')) * scale + gaps;
  const source = {
    x: left,
    y: top + Math.max(0, roomsHeight - total(rooms, 'value') * scale),
    width: barWidth,
    height: given * scale,
  };
  return {
    source,
    scale,
    rooms: roomBands(rooms, source, scale, space),
    losses: lossBands(losses, rooms, source, scale, space),
  };
};

const total = (streams: readonly Stream[], key: 'value' | 'missing'): number =>
  streams.reduce((sum, stream) => sum + stream[key], 0);

const roomBands = (
  rooms: readonly Stream[],
  source: FlowLayout['source'],
  scale: number,
  space: FlowSpace,
) => {
  const x0 = source.x + source.width;
  const x1 = rightEdge(rooms, x0, space);
  let from = source.y;
  let to = top;
  const bands = rooms.map((stream): Band => {
    const height = stream.value * scale;
    const missingHeight = stream.missing * scale;
    const band: Band = {
      stream,
      path: across(x0, from, x1, to, height),
      end: { x: x1, y: to, width: endWidth, height },
      missingHeight,
      label: { x: x1 + endWidth + 8, y: to + (height + missingHeight) / 2 },
    };
    from += height;
    to += height + missingHeight + roomGap;
    return band;
  });
  const spread = spreadApart(
    bands.map((band) => band.label.y),
    Math.min(lineHeight, (space.height - top - lastLine) / Math.max(1, bands.length)),
    top + lineHeight / 2,
    space.height - lastLine,
  );
  return bands.map((band, i) => ({ ...band, label: { ...band.label, y: spread[i]! } }));
};

const lossBands = (
  losses: readonly Stream[],
  rooms: readonly Stream[],
  source: FlowLayout['source'],
  scale: number,
  space: FlowSpace,
) => {
  const x0 = source.x + source.width;
  const x1 = rightEdge(rooms, x0, space);
  const foot = space.height - lossFoot;
  const pitch = (x1 - x0 - 30) / Math.max(1, losses.length);
  let from = source.y + source.height;
  // The lowest strip falls first, so that no falling stream crosses another.
  return losses.map((stream, i): Band => {
    const size = stream.value * scale;
    from -= size;
    const x = x0 + 30 + pitch * (i + 0.5) - size / 2;
    return {
      stream,
      path: falling(x0, from, x, foot, size),
      end: { x, y: foot, width: size, height: 0 },
      missingHeight: 0,
      label: { x: x + size / 2, y: foot + 15 },
    };
  });
};

const rightEdge = (rooms: readonly Stream[], x0: number, space: FlowSpace): number => {
  const longest = Math.max(0, ...rooms.map(({ name }) => name.length));
  const words = Math.min(mostWords, Math.max(fewestWords, 7.2 * longest + 94));
  return Math.max(x0 + 60, space.width - words);
};

const across = (x0: number, y0: number, x1: number, y1: number, height: number): string => {
  const bend = (x1 - x0) * 0.45;
  return `M${n(x0)} ${n(y0)}C${n(x0 + bend)} ${n(y0)} ${n(x1 - bend)} ${n(y1)} ${n(x1)} ${n(y1)}V${n(y1 + height)}C${n(x1 - bend)} ${n(y1 + height)} ${n(x0 + bend)} ${n(y0 + height)} ${n(x0)} ${n(y0 + height)}Z`;
};

const falling = (x0: number, y0: number, x1: number, foot: number, size: number): string => {
  const radius = Math.min(26, x1 - x0);
  return `M${n(x0)} ${n(y0)}H${n(x1 + size - radius)}C${n(x1 + size)} ${n(y0)} ${n(x1 + size)} ${n(y0)} ${n(x1 + size)} ${n(y0 + radius)}V${n(foot)}H${n(x1)}V${n(y0 + size + radius)}C${n(x1)} ${n(y0 + size)} ${n(x1)} ${n(y0 + size)} ${n(x1 - radius)} ${n(y0 + size)}H${n(x0)}Z`;
};

const n = (value: number): number => Math.round(value * 10) / 10;

/** Moves ordered positions apart until each pair keeps its distance, within the ends where they fit. */
export const spreadApart = (
  wished: readonly number[],
  apart: number,
  low: number,
  high: number,
): number[] => {
  const placed: number[] = [];
  for (const wish of wished) placed.push(Math.max(wish, (placed.at(-1) ?? low - apart) + apart));
  for (let i = placed.length - 1, limit = high; i >= 0; i--, limit -= apart)
    placed[i] = Math.min(
      placed[i]!,
      Math.max(limit, low + i * Math.min(apart, (high - low) / placed.length)),
    );
  return placed;
};
