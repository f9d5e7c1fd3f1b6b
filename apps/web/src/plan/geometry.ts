/** Plane geometry for the plan, in whatever unit the points carry; y grows downward as on the screen. */
export type Point = readonly [x: number, y: number];
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Length along a polyline up to each of its points. */
export const lengthsAlong = (path: readonly Point[]): number[] => {
  const lengths = [0];
  for (let i = 1; i < path.length; i++) lengths.push(lengths[i - 1]! + distance(path[i - 1]!, path[i]!));
  return lengths;
};

/** Point at a share 0 … 1 of a polyline's length, and the unit direction there. */
export const pointAlong = (path: readonly Point[], share: number): { point: Point; direction: Point } => {
  const lengths = lengthsAlong(path);
  const total = lengths.at(-1) ?? 0;
  const wanted = Math.min(Math.max(share, 0), 1) * total;
  for (let i = 1; i < path.length; i++) {
    const start = lengths[i - 1]!;
    const piece = lengths[i]! - start;
    if (piece > 0 && (wanted <= lengths[i]! || i === path.length - 1)) {
      const t = Math.min((wanted - start) / piece, 1);
      const [a, b] = [path[i - 1]!, path[i]!];
      const direction: Point = [(b[0] - a[0]) / piece, (b[1] - a[1]) / piece];
      return { point: [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t], direction };
    }
  }
  return { point: path[0] ?? [0, 0], direction: [1, 0] };
};

/** The stretch of a polyline between two shares of its length, corners kept. */
export const stretch = (path: readonly Point[], from: number, to: number): Point[] => {
  const lengths = lengthsAlong(path);
  const total = lengths.at(-1) ?? 0;
  const inside = path.filter((_, i) => lengths[i]! > from * total + 1e-9 && lengths[i]! < to * total - 1e-9);
  return [pointAlong(path, from).point, ...inside, pointAlong(path, to).point];
};

/** Smallest box around some points. */
export const boxAround = (points: readonly Point[]): Box => {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
};

export const boxCentre = (box: Box): Point => [box.x + box.width / 2, box.y + box.height / 2];

/** Whether a point lies inside a closed outline (even–odd rule). */
export const isInside = (point: Point, outline: readonly Point[]): boolean => {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [xi, yi] = outline[i]!;
    const [xj, yj] = outline[j]!;
    if (yi > point[1] !== yj > point[1] && point[0] < ((xj - xi) * (point[1] - yi)) / (yj - yi) + xi)
      inside = !inside;
  }
  return inside;
};

/** Distance from a point to a box; 0 inside it. */
export const distanceToBox = (point: Point, box: Box): number =>
  Math.hypot(
    Math.max(box.x - point[0], 0, point[0] - box.x - box.width),
    Math.max(box.y - point[1], 0, point[1] - box.y - box.height),
  );

/** Area that two boxes share. */
export const sharedArea = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)) *
  Math.max(0, Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));
