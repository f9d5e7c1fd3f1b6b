import { type Box, boxAround, distanceToBox, isInside, type Point, sharedArea } from './geometry.ts';

/** Something that a label must keep clear of: a disc of a ribbon, or a box. */
export type Obstacles = {
  readonly discs: readonly { readonly centre: Point; readonly radius: number }[];
  readonly boxes: readonly Box[];
};

export type Size = { readonly width: number; readonly height: number };

export type LabelWish = {
  readonly id: string;
  readonly outline: readonly Point[];
  /** Sizes of its variants, fullest first. */
  readonly variants: readonly Size[];
};

export type PlacedLabel = {
  readonly id: string;
  readonly variant: number;
  readonly box: Box;
  /** False when no place inside the room holds it and it stands beside the room. */
  readonly inside: boolean;
};

const step = 6;
const padding = 6;
/** Room around words that stand beside their room, for the frame they get there. */
const frame = 6;
const gap = 3;
/** How far from its room a label may stand. */
const distancesBeside = [4, 16, 32, 56];

/**
 * Finds a place for each room's label: the fullest variant that stands inside the room clear of every
 * obstacle, else the place that covers least. Small rooms choose first because they have fewest places.
 */
export const placeLabels = (
  wishes: readonly LabelWish[],
  obstacles: Obstacles,
  area: Box,
  previous: readonly PlacedLabel[] = [],
): PlacedLabel[] => {
  const placed: PlacedLabel[] = [];
  const bySize = wishes.toSorted((a, b) => boxArea(a.outline) - boxArea(b.outline));
  for (const wish of bySize) {
    const before = previous.find((label) => label.id === wish.id);
    placed.push(kept(wish, before, obstacles, placed) ?? placeOne(wish, obstacles, placed, area));
  }
  return placed;
};

/** Words stay where they stood as long as that place is clear, so that they do not jump while a handle moves. */
const kept = (
  wish: LabelWish,
  before: PlacedLabel | undefined,
  obstacles: Obstacles,
  placed: readonly PlacedLabel[],
): PlacedLabel | undefined => {
  const size = before && wish.variants[before.variant];
  if (!size) return undefined;
  const box = { x: before.box.x, y: before.box.y, ...size };
  const boxes = [...obstacles.boxes, ...placed.map((label) => label.box)];
  if (before.inside && !corners(box).every((corner) => isInside(corner, wish.outline))) return undefined;
  const clear = covered(widened(box, before.inside ? 0 : frame), obstacles.discs, boxes, 0) === 0;
  return clear ? { ...before, box } : undefined;
};

const boxArea = (outline: readonly Point[]): number => {
  const box = boxAround(outline);
  return box.width * box.height;
};

type Candidate = {
  readonly variant: number;
  readonly box: Box;
  readonly inside: boolean;
  readonly cost: number;
};

const placeOne = (
  wish: LabelWish,
  obstacles: Obstacles,
  placed: readonly PlacedLabel[],
  area: Box,
): PlacedLabel => {
  const boxes = [...obstacles.boxes, ...placed.map((label) => label.box)];
  let best: Candidate | undefined;
  for (const inside of [true, false]) {
    const discs = near(obstacles.discs, widened(boxAround(wish.outline), inside ? 0 : farthest(wish)));
    for (const [variant, size] of wish.variants.entries()) {
      const boxesTried = inside ? placesInside(wish.outline, size) : placesBeside(wish.outline, size, area);
      const reach = inside ? 0 : frame;
      for (const box of boxesTried) {
        const cost = covered(widened(box, reach), discs, boxes, best?.cost);
        if (!best || cost < best.cost - 1e-9) best = { variant, box, inside, cost };
        if (cost === 0) return { id: wish.id, variant, box, inside };
      }
    }
  }
  const size = wish.variants.at(-1)!;
  const fallback = {
    variant: wish.variants.length - 1,
    box: { ...boxAround(wish.outline), ...size },
    inside: true,
  };
  const { variant, box, inside } = best ?? fallback;
  return { id: wish.id, variant, box, inside };
};

/** How far the farthest place beside a room reaches. */
const farthest = ({ variants }: LabelWish): number =>
  frame +
  Math.max(...distancesBeside) +
  Math.max(...variants.flatMap(({ width, height }) => [width, height]));

export const widened = ({ x, y, width, height }: Box, by: number): Box => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});

/** How much a box would cover; 0 when it is clear. Beyond `limit` the exact figure does not matter. */
export const covered = (
  box: Box,
  discs: Obstacles['discs'],
  boxes: readonly Box[],
  limit = Number.POSITIVE_INFINITY,
): number => {
  let cost = 0;
  for (const other of boxes) cost += sharedArea(box, other);
  for (const { centre, radius } of discs) {
    if (cost > limit) return cost;
    cost += Math.max(0, radius + gap - distanceToBox(centre, box));
  }
  return cost;
};

/** Discs that reach into a box. */
export const near = (discs: Obstacles['discs'], box: Box): Obstacles['discs'] =>
  discs.filter(({ centre, radius }) => distanceToBox(centre, box) < radius + gap);

/** Places inside an outline, the upper left first, as a reader looks for a name. */
const placesInside = (outline: readonly Point[], size: Size): Box[] => {
  const around = boxAround(outline);
  const places: Box[] = [];
  for (let y = around.y + padding; y + size.height <= around.y + around.height - padding / 2; y += step)
    for (let x = around.x + padding; x + size.width <= around.x + around.width - padding / 2; x += step) {
      const box = { x, y, ...size };
      if (corners(box).every((corner) => isInside(corner, outline))) places.push(box);
    }
  const reach = ({ x, y }: Box) => (x - around.x) * 0.8 + (y - around.y);
  return places.toSorted((a, b) => reach(a) - reach(b));
};

const placesBeside = (outline: readonly Point[], size: Size, area: Box): Box[] => {
  const around = boxAround(outline);
  const places: Box[] = [];
  for (const reach of distancesBeside)
    for (let shift = 0; shift <= 1; shift += 0.25) {
      const x = around.x + shift * (around.width - size.width);
      const y = around.y + shift * (around.height - size.height);
      places.push({ x, y: around.y - size.height - reach, ...size });
      places.push({ x, y: around.y + around.height + reach, ...size });
      places.push({ x: around.x + around.width + reach, y, ...size });
      places.push({ x: around.x - size.width - reach, y, ...size });
    }
  return places.filter(
    ({ x, y }) =>
      x >= area.x &&
      y >= area.y &&
      x + size.width <= area.x + area.width &&
      y + size.height <= area.y + area.height,
  );
};

const corners = ({ x, y, width, height }: Box): Point[] => [
  [x, y],
  [x + width, y],
  [x, y + height],
  [x + width, y + height],
  [x + width / 2, y + height / 2],
];
