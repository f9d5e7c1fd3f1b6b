import type { Account, DuctPart } from '@airledger/engine';
import { fitPlan, type PlanFit, type Space } from './fit-plan.ts';
import { type Box, boxAround, boxCentre, type Point, pointAlong, stretch } from './geometry.ts';
import { type PartPiece, partPieces } from './part-pieces.ts';
import { type RibbonShape, ribbonShape } from './ribbon-shape.ts';
import { type Standing, standing } from './standing.ts';

/** A storey's plan in screen units, to scale, without words. */
export type Drawing = {
  readonly rooms: readonly DrawnRoom[];
  /** In the order in which they are painted: returns below, trunks over the runs they feed. */
  readonly ribbons: readonly DrawnRibbon[];
  readonly drops: readonly DrawnDrop[];
  readonly terminals: readonly DrawnTerminal[];
  readonly airHandlers: readonly DrawnAirHandler[];
  readonly area: Box;
  readonly buttons: PlanFit['buttons'];
  /** Parts of this storey that have no path on the plan. */
  readonly undrawn: number;
};

export type DrawnRoom = {
  readonly id: string;
  readonly outline: readonly Point[];
  readonly standing: Standing;
};

export type DrawnRibbon = {
  readonly part: DuctPart;
  readonly path: readonly Point[];
  readonly pieces: readonly DrawnPiece[];
  readonly shape: RibbonShape;
};

/** Strength 1: as warm or cold as it left the air handler; 0: no better than the room. */
export type DrawnPiece = PartPiece & { readonly width: number; readonly strength: number };

export type DrawnDrop = {
  readonly id: string;
  readonly part: DuctPart;
  readonly at: Point;
  readonly radius: number;
  /** Air lost (supply) or drawn in (return), ≥ 0. */
  readonly flow_m3s: number;
  readonly inward: boolean;
};

export type DrawnTerminal = {
  readonly part: DuctPart;
  readonly at: Point;
  readonly kind: 'register' | 'grille';
};
export type DrawnAirHandler = { readonly system: string; readonly name: string; readonly box: Box };

/** Width of the whole fan flow as a share of the smaller side of the plan. */
const widest = 0.13;
const thinnest = 1.5;
const smallestDrop_m3s = 0.0003;

/** Draws one storey of an account to fit a space. */
export const drawPlan = (account: Account, storey: number, space: Space): Drawing => {
  const { survey } = account;
  const rooms = survey.rooms.filter((room) => room.storey === storey && room.outline_m.length >= 3);
  const parts = survey.systems.flatMap((system) => system.parts).filter((part) => part.storey === storey);
  const drawable = parts.filter((part) => part.path_m.length >= 2);
  const fit = fitPlan(
    [...rooms.flatMap((room) => room.outline_m), ...drawable.flatMap((part) => part.path_m)],
    space,
  );
  const widthPerFlow = (widest * fit.smaller) / Math.max(...fanFlows(account), 1e-6);
  const pieces = partPieces(account);
  const ribbons = drawable
    .toSorted((a, b) => layer(a) - layer(b))
    .map((part) =>
      drawRibbon(account, part, part.path_m.map(fit.toScreen), pieces.get(part.id) ?? [], widthPerFlow),
    );
  return {
    rooms: rooms.map((room) => ({
      id: room.id,
      outline: room.outline_m.map(fit.toScreen),
      standing: standing(
        account.rooms.find((each) => each.room === room.id) ?? { needed_m3s: 0, delivered_m3s: 0 },
      ),
    })),
    ribbons,
    drops: ribbons.flatMap((ribbon) => dropsOf(account, ribbon)),
    terminals: ribbons.flatMap(({ part, path }) =>
      part.terminal ? [{ part, at: path.at(-1)!, kind: part.terminal.kind }] : [],
    ),
    airHandlers: airHandlersOf(account, ribbons),
    area: { x: 0, y: 0, ...space },
    buttons: fit.buttons,
    undrawn: parts.length - drawable.length,
  };
};

const fanFlows = (account: Account): number[] => account.systems.map((system) => system.fanFlow_m3s);

const layer = (part: DuctPart): number =>
  (part.side === 'return' ? 0 : 4) + { run: 0, bypass: 1, trunk: 2, plenum: 3 }[part.role];

const drawRibbon = (
  account: Account,
  part: DuctPart,
  path: readonly Point[],
  pieces: readonly PartPiece[],
  widthPerFlow: number,
): DrawnRibbon => {
  const system = account.systems.find((each) =>
    account.survey.systems.some((own) => own.id === each.system && own.parts.includes(part)),
  );
  const room = account.mode === 'heating' ? account.survey.indoor.heating_C : account.survey.indoor.cooling_C;
  const span = (system?.leavesAt_C ?? room) - room;
  const drawn = pieces.map((piece) => ({
    ...piece,
    width: Math.max(thinnest, Math.abs(piece.flow_m3s) * widthPerFlow),
    strength: Math.abs(span) < 0.1 ? 0 : Math.min(1, Math.max(0, (piece.temperature_C - room) / span)),
  }));
  return { part, path, pieces: drawn, shape: ribbonShape(path, drawn) };
};

/** One drop for each leak that passes air, at the place of the duct where it sits. */
const dropsOf = (account: Account, ribbon: DrawnRibbon): DrawnDrop[] => {
  const { part, path, pieces } = ribbon;
  const largest = Math.max(...fanFlows(account), 1e-6);
  return leakFlows(account, part.id).flatMap(({ id, node, flow_m3s }) => {
    if (flow_m3s < smallestDrop_m3s) return [];
    const share = shareOfNode(pieces, node);
    const { point, direction } = pointAlong(path, share);
    const width = pieces.find((piece) => piece.to >= share)?.width ?? 0;
    const radius = 3 + 22 * Math.sqrt(flow_m3s / largest);
    const away = width / 2 + radius * 0.55;
    // Air falls: the drop hangs on the lower side of its duct.
    const down = direction[0] >= 0 ? 1 : -1;
    const at: Point = [point[0] - direction[1] * down * away, point[1] + direction[0] * down * away];
    return [{ id: `${part.id}/${id}`, part, at, radius, flow_m3s, inward: part.side === 'return' }];
  });
};

/** A little off the ends, so that drops of a joint and of the duct it joins stand apart. */
const shareOfNode = (pieces: readonly DrawnPiece[], node: number): number => {
  const piece = pieces.find(({ far }) => far === node);
  return Math.min(0.94, Math.max(0.08, piece ? piece.to : 0));
};

type LeakFlow = { readonly id: string; readonly node: number; readonly flow_m3s: number };

/** Air that each leak of a part passes while the fan runs, whichever way, where it passes most. */
const leakFlows = (account: Account, part: string): LeakFlow[] => {
  const { elements, solution } = account.air;
  const leaks = new Map<string, LeakFlow & { most: number }>();
  elements.forEach((element, i) => {
    if (element.kind !== 'leak' || element.of !== part || !element.leak) return;
    const flow = Math.abs(solution.flow_m3s[i]!);
    const before = leaks.get(element.leak.id);
    leaks.set(element.leak.id, {
      id: element.leak.id,
      flow_m3s: flow + (before?.flow_m3s ?? 0),
      node: before && before.most >= flow ? before.node : element.from,
      most: Math.max(flow, before?.most ?? 0),
    });
  });
  return [...leaks.values()];
};

const airHandlersOf = (account: Account, ribbons: readonly DrawnRibbon[]): DrawnAirHandler[] =>
  account.survey.systems.flatMap((system) => {
    const starts = ribbons.filter(({ part }) => part.joins === 'air-handler' && system.parts.includes(part));
    if (starts.length === 0) return [];
    const [x, y] = boxCentre(boxAround(starts.map(({ path }) => path[0]!)));
    const size = 34;
    return [
      {
        system: system.id,
        name: system.name,
        box: { x: x - size / 2, y: y - size / 2, width: size, height: size },
      },
    ];
  });

/** Discs that cover a ribbon, for keeping words clear of it. */
export const ribbonDiscs = (ribbon: DrawnRibbon): { centre: Point; radius: number }[] =>
  ribbon.pieces.flatMap((piece) => {
    const points = stretch(ribbon.path, piece.from, piece.to);
    const length = boxAround(points).width + boxAround(points).height;
    const count = Math.max(2, Math.ceil(length / Math.max(6, piece.width / 2)));
    return Array.from({ length: count + 1 }, (_, i) => ({
      centre: pointAlong(points, i / count).point,
      radius: piece.width / 2,
    }));
  });
