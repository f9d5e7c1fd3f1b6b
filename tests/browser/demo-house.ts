import { readFileSync } from 'node:fs';
import { quailRun } from '../cli/run-cli.ts';

/** East and north of the house's south-west corner, feet. */
export type Feet = readonly [east: number, north: number];
type Typed = string | { readonly value: string };
type Surface = Record<string, Typed | number | boolean> & {
  readonly id: string;
  readonly kind: string;
  readonly in?: string;
  readonly facing?: string;
  readonly count?: number;
};
type Part = Record<string, unknown> & {
  readonly id: string;
  readonly side: 'supply' | 'return';
  readonly role: 'plenum' | 'trunk' | 'run';
  readonly length: string;
  readonly path: readonly string[];
  readonly leaks?: readonly { readonly place: string; readonly flow: Typed }[];
  readonly terminal?: { readonly room: string };
};

/** The first demo house as its file has it: what a surveyor would have in the notebook beside the plan. */
export const demo = JSON.parse(readFileSync(quailRun, 'utf8')) as {
  rooms: { id: string; name: string; use: string; outline: string[]; surfaces: Surface[] }[];
  zones: { outline: string[] }[];
  doors: {
    between: [string, string];
    open: boolean;
    opening?: boolean;
    size: string;
    undercut?: Typed;
    shutArea?: Typed;
  }[];
  systems: { airHandler: { fan: { coolingTable: string[] } }; parts: Part[] }[];
};

export const textOf = (typed: Typed | number | boolean | undefined): string =>
  typed === undefined ? '' : typeof typed === 'object' ? typed.value : String(typed);

/** "14 ft 7.2 in" in feet. */
const feet = (text: string): number => {
  const found = /^(?:([\d.]+) ft)?\s*(?:([\d.]+) in)?$/.exec(text.trim())!;
  return Number(found[1] ?? 0) + Number(found[2] ?? 0) / 12;
};
const point = (text: string): Feet => {
  const [east = '', north = ''] = text.split(',');
  return [feet(east), feet(north)];
};
export const outlineOf = (texts: readonly string[]): readonly Feet[] => texts.map(point);

const edgesOf = (outline: readonly Feet[]) =>
  outline.map((corner, i) => [corner, outline[(i + 1) % outline.length]!] as const);

const between = ([a, b]: readonly [Feet, Feet], share: number): Feet => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];

const [west, south] = [0, 0];
export const [east, north] = [55, 28];
const outsideWall = (outline: readonly Feet[], facing: string) =>
  edgesOf(outline).find(([a, b]) =>
    facing === 'north'
      ? a[1] === north && b[1] === north
      : facing === 'south'
        ? a[1] === south && b[1] === south
        : facing === 'west'
          ? a[0] === west && b[0] === west
          : a[0] === east && b[0] === east,
  )!;

/** Windows and outside doors where they are drawn: spread along their wall. */
export const openings = demo.rooms.flatMap(({ outline, surfaces }) => {
  const walls = surfaces.filter(({ kind }) => kind === 'wall');
  return walls.flatMap((wall) => {
    const inIt = surfaces
      .filter((each) => each.in === wall.id)
      .flatMap((each) => Array.from({ length: each.count ?? 1 }, () => each));
    const edge = outsideWall(outlineOf(outline), wall.facing!);
    return inIt.map((each, i) => ({
      kind: each.kind as 'window' | 'door',
      size: textOf(each.size as string),
      at: between(edge, (i + 1) / (inIt.length + 1)),
    }));
  });
});

/** Middle of the longest wall that two rooms share. */
const betweenRooms = (a: readonly Feet[], b: readonly Feet[]): Feet => {
  const shared = edgesOf(a).flatMap(([[x1, y1], [x2, y2]]) =>
    edgesOf(b).flatMap(([[x3, y3], [x4, y4]]) => {
      if (x1 === x2 && x3 === x4 && x1 === x3) {
        const [from, to] = [
          Math.max(Math.min(y1, y2), Math.min(y3, y4)),
          Math.min(Math.max(y1, y2), Math.max(y3, y4)),
        ];
        return to > from ? [{ length: to - from, at: [x1, (from + to) / 2] as Feet }] : [];
      }
      if (y1 === y2 && y3 === y4 && y1 === y3) {
        const [from, to] = [
          Math.max(Math.min(x1, x2), Math.min(x3, x4)),
          Math.min(Math.max(x1, x2), Math.max(x3, x4)),
        ];
        return to > from ? [{ length: to - from, at: [(from + to) / 2, y1] as Feet }] : [];
      }
      return [];
    }),
  );
  return shared.sort((one, two) => two.length - one.length)[0]!.at;
};

export const doors = demo.doors.map((door) => {
  const [a, b] = door.between.map((id) => outlineOf(demo.rooms.find((room) => room.id === id)!.outline));
  return {
    kind: door.opening ? 'opening' : door.open ? 'open' : 'shut',
    at: betweenRooms(a!, b!),
    cells: [door.size, textOf(door.undercut), textOf(door.shutArea)],
  };
});

/** Every point of a duct lies on the half foot of the grid; what its length has beyond its line are rises and bends. */
const onGrid = ([x, y]: Feet): Feet => [Math.round(x * 2) / 2, Math.round(y * 2) / 2];
/** The stub and the run that hangs on it stand too near to the trunk for the half-foot grid: one step farther. */
const apart: Readonly<Record<string, Feet>> = { '40.5 15.5': [40, 15] };

export const ducts = demo.systems[0]!.parts.map((part) => {
  const path = outlineOf(part.path)
    .map(onGrid)
    .map((at) => apart[`${at[0]} ${at[1]}`] ?? at);
  const drawn = path
    .slice(1)
    .reduce((sum, [x, y], i) => sum + Math.hypot(x - path[i]![0], y - path[i]![1]), 0);
  return { part, path, rises: Math.max(0, feet(part.length) - drawn) };
});

/** Near enough to both plenums that they begin on it, and far enough from the runs that they do not. */
export const airHandlerAt: Feet = [27, 13.5];
