import type { Account } from '@airledger/engine';
import type { Format } from '../figure/format.ts';
import type { Drawing, DrawnDrop } from './drawing.ts';
import { ribbonDiscs } from './drawing.ts';
import { type Box, boxAround, type Point } from './geometry.ts';
import {
  covered,
  type LabelWish,
  near,
  type Obstacles,
  type PlacedLabel,
  placeLabels,
  type Size,
  widened,
} from './place-labels.ts';

/** Width of a text in screen units, in the plan's typeface. */
export type Measure = (text: string, bold: boolean) => number;

/** Words of a room: its name, in bold, and below it its figures. */
export type RoomText = { readonly name: readonly string[]; readonly figures: readonly string[] };
export type RoomWords = PlacedLabel & { readonly text: RoomText };
export type DropWords = { readonly id: string; readonly words: string; readonly at: Point };
export type PlanWords = { readonly rooms: readonly RoomWords[]; readonly drops: readonly DropWords[] };

export const lineHeight = 16;
/** Drops below this share of the fan flow keep their words for those who ask. */
const spokenShare = 0.008;
/** How far from its drop a figure may stand. */
const reaches = [3, 9, 16];
const farthestWords = 40;
/** What a figure may cover before it is left out. */
const mostCovered = 12;

/** Writes the rooms' figures and the lost air beside their drawings, clear of ribbons and of each other. */
export const planWords = (
  account: Account,
  drawing: Drawing,
  format: Format,
  measure: Measure,
  previous?: PlanWords,
): PlanWords => {
  const ribbons = drawing.ribbons.flatMap(ribbonDiscs);
  const discs = [
    ...ribbons,
    ...drawing.drops.map((drop) => ({ centre: drop.at, radius: drop.radius })),
    ...drawing.terminals.map(({ at }) => ({ centre: at, radius: 9 })),
  ];
  const boxes = drawing.airHandlers.map((handler) => handler.box);
  const variants = new Map(drawing.rooms.map(({ id }) => [id, roomVariants(account, id, format)]));
  const wishes = drawing.rooms.map(
    ({ id, outline }): LabelWish => ({
      id,
      outline,
      variants: variants.get(id)!.map((text) => sizeOf(text, measure)),
    }),
  );
  const rooms = placeLabels(wishes, { discs, boxes }, drawing.area, previous?.rooms).map((label) => ({
    ...label,
    text: variants.get(label.id)![label.variant]!,
  }));
  return {
    rooms,
    drops: dropWords(account, drawing, ribbons, format, measure, [...boxes, ...rooms.map(({ box }) => box)]),
  };
};

/** What is written in a room, fullest first; the share of its air is always said. */
const roomVariants = (account: Account, id: string, format: Format): RoomText[] => {
  const room = account.rooms.find((each) => each.room === id);
  const name = account.survey.rooms.find((each) => each.id === id)?.name ?? id;
  if (!room) return [{ name: [name], figures: [] }];
  const names = [[name], inTwoLines(name)].filter((lines) => lines !== undefined);
  const temperature = format.full(room.predicted_C, 'temperature');
  const { needed_m3s: needed, delivered_m3s: delivered } = room;
  if (!(needed > 0) && !(delivered > 1e-6))
    return [[temperature], []].flatMap((figures) => names.map((lines) => ({ name: lines, figures })));
  const air = format.of(delivered, needed, 'airflow');
  const bare = air.replace(` ${format.unit('airflow')}`, '');
  const brief = `${format.bare(delivered, 'airflow', 0)}/${format.bare(needed, 'airflow', 0)}`;
  const figures = [[air, temperature], [bare, temperature], [air], [bare]];
  return [
    ...figures.flatMap((each) => names.map((lines) => ({ name: lines, figures: each }))),
    { name: [`${name} ${brief}`], figures: [] },
    ...names.map((lines) => ({ name: lines, figures: [brief] })),
  ];
};

/** A name of several words, broken where its halves are most alike; a mere number is never left alone. */
const inTwoLines = (name: string): string[] | undefined => {
  const breaks = [...name.matchAll(/(?<=\S{3}) (?=\S{3})/g)].map(({ index }) => index);
  const middle = breaks.toSorted((a, b) => Math.abs(a - name.length / 2) - Math.abs(b - name.length / 2))[0];
  return middle === undefined ? undefined : [name.slice(0, middle), name.slice(middle + 1)];
};

const sizeOf = ({ name, figures }: RoomText, measure: Measure): Size => ({
  width:
    Math.max(...name.map((line) => measure(line, true)), ...figures.map((line) => measure(line, false))) + 2,
  height: (name.length + figures.length) * lineHeight,
});

/** Figures of the drops that matter, the largest placed first; small ones are said by their duct's name only. */
const dropWords = (
  account: Account,
  drawing: Drawing,
  ribbons: Obstacles['discs'],
  format: Format,
  measure: Measure,
  taken: readonly Box[],
): DropWords[] => {
  const fan = Math.max(...account.systems.map((system) => system.fanFlow_m3s), 1e-6);
  const drops = drawing.drops.map(dropBox);
  const placed: Box[] = [...taken];
  return drawing.drops
    .filter((drop) => drop.flow_m3s / fan >= spokenShare)
    .toSorted((a, b) => b.flow_m3s - a.flow_m3s)
    .flatMap((drop) => {
      const words = `${drop.inward ? '+' : ''}${format.bare(drop.flow_m3s, 'airflow', 0)}`;
      const size = { width: measure(words, true), height: 14 };
      const reach = drop.radius + farthestWords + size.width;
      const discs = near(ribbons, widened(boxAround([drop.at]), reach));
      const others = [...placed, ...drops.filter((box) => box.id !== drop.id)];
      let best: { box: Box; cost: number } | undefined;
      for (const box of reaches.flatMap((each) => placesAround(drop, size, each))) {
        const cost = covered(box, discs, others, best?.cost);
        if (!best || cost < best.cost) best = { box, cost };
        if (cost === 0) break;
      }
      if (!best || best.cost > mostCovered) return [];
      placed.push(best.box);
      return [{ id: drop.id, words, at: [best.box.x, best.box.y + 11] as const }];
    });
};

/** Places of some words around a drop, those beside it first. */
const placesAround = ({ at: [x, y], radius }: DrawnDrop, size: Size, reach: number): Box[] => {
  const near = radius + reach;
  const far = near + size.width;
  return [
    [near, -7],
    [-far, -7],
    [-size.width / 2, near],
    [-size.width / 2, -near - 14],
    [near * 0.8, near * 0.8],
    [-far, near * 0.8],
    [near * 0.8, -near - 8],
    [-far, -near - 8],
  ].map(([dx, dy]) => ({ x: x + dx!, y: y + dy!, ...size }));
};

const dropBox = (drop: DrawnDrop): Box & { id: string } => ({
  id: drop.id,
  ...boxAround([
    [drop.at[0] - drop.radius, drop.at[1] - drop.radius],
    [drop.at[0] + drop.radius, drop.at[1] + drop.radius],
  ]),
});
