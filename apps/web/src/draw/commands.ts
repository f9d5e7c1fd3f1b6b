import type { PlanPoint } from '@airledger/engine';
import {
  type Clip,
  copy,
  deleteOpening,
  deletePart,
  deleteRoom,
  deleteSurface,
  deleteSystem,
  deleteZone,
  type Job,
  middleOf,
  paste,
} from '@airledger/job';
import { useWorkbench } from '../state/store.ts';
import { type Offer, useDraw } from './draw-store.ts';
import { contextNow, gridOf, jobNow, perform } from './hear.ts';
import { moveItems } from './moves.ts';
import { partOfRegister, pointsOf, roomsOn, systemOfPart, within } from './scene.ts';
import { type Selected, select, selection } from './selection.ts';
import type { Deed, ToolContext } from './tool.ts';
import { fitted, zoomed } from './view.ts';

const tell = (deed: Deed): void => useDraw.setState({ note: perform(deed) });

/** What happens to the ducts that hang on one that is deleted, and to the registers of a deleted room. */
type Hanging = 'refuse' | 'delete' | 'rejoin';

/** One record less. */
const without = (job: Job, item: Selected, hanging: Hanging, { writing }: ToolContext): Job => {
  const children = { children: hanging, units: writing.units };
  switch (item.kind) {
    case 'room':
      return deleteRoom(job, item.id, { ...writing, withRegisters: hanging !== 'refuse' });
    case 'zone':
      return deleteZone(job, item.id, writing);
    case 'part': {
      const system = systemOfPart(job, item.id);
      return system ? deletePart(job, system, item.id, children) : job;
    }
    case 'register': {
      // A run without its register leads nowhere: they go together.
      const part = partOfRegister(job, item.id);
      return part ? deletePart(job, systemOfPart(job, part.id)!, part.id, children) : job;
    }
    case 'airHandler':
    case 'system':
      return deleteSystem(job, item.id);
    case 'door':
      return deleteOpening(job, 'doors', item.id);
    case 'transfer':
      return deleteOpening(job, 'transfers', item.id);
    case 'window':
    case 'surface':
      return item.room === undefined ? job : deleteSurface(job, item.room, item.id);
  }
};

/** Ducts before the trunks they hang on, all before the rooms that hold them. */
const order = [
  'window',
  'surface',
  'door',
  'transfer',
  'register',
  'part',
  'airHandler',
  'system',
  'zone',
  'room',
];

const inOrder = (job: Job, items: readonly Selected[]): readonly Selected[] => {
  const depth = (item: Selected): number => {
    const parts = job.systems?.flatMap((system) => system.parts) ?? [];
    let part = parts.find(({ id }) => id === item.id);
    let steps = 0;
    for (; part && steps < 50; steps++) part = parts.find(({ id }) => id === part!.joins);
    return steps;
  };
  return items.toSorted((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind) || depth(b) - depth(a));
};

/** Deletes what is selected; where other things hang on it, says so and offers what could become of them. */
export const deleteSelected = (hanging: Hanging = 'refuse'): void => {
  const context = contextNow();
  const items = selection();
  if (!context || items.length === 0) return;
  const label = items.length === 1 ? `Delete ${items[0]!.id}` : `Delete ${items.length} things`;
  const problem = perform({
    label,
    change: (job) => inOrder(job, items).reduce((now, item) => without(now, item, hanging, context), job),
    select: [],
  });
  const refused = problem !== undefined && hanging === 'refuse';
  useDraw.setState({
    note: problem,
    confirm: undefined,
    offers: refused ? offersFor(context.job, items) : undefined,
  });
};

/** What can become of the ducts that hang on the one duct selected, or of the runs of the one room. */
const offersFor = (job: Job, items: readonly Selected[]): readonly Offer[] => {
  const [item, ...others] = items;
  if (!item || others.length > 0) return [{ words: 'Delete all of it', act: () => deleteSelected('delete') }];
  if (item.kind === 'room') return [{ words: 'Delete its runs too', act: () => deleteSelected('delete') }];
  const parts = job.systems?.flatMap((system) => system.parts) ?? [];
  const part =
    item.kind === 'register' ? partOfRegister(job, item.id) : parts.find(({ id }) => id === item.id);
  if (!part) return [];
  const joined = parts.find(({ id }) => id === part.joins);
  return [
    {
      words: `Join them to ${joined?.name ?? joined?.id ?? 'the air handler'} instead`,
      act: () => deleteSelected('rejoin'),
    },
    { words: 'Delete them too', act: () => deleteSelected('delete') },
  ];
};

let clip: { readonly clip: Clip; readonly system?: string; readonly middle: PlanPoint } | undefined;

/** Copies the rooms and ducts that are selected; of a register its run. */
export const copySelected = (): void => {
  const job = jobNow();
  if (!job) return;
  const items = selection();
  const rooms = items.filter(({ kind }) => kind === 'room').map(({ id }) => id);
  const parts = [
    ...new Set(
      items.flatMap(({ kind, id }) =>
        kind === 'part' ? [id] : kind === 'register' ? (partOfRegister(job, id)?.id ?? []) : [],
      ),
    ),
  ];
  const system = parts[0] && systemOfPart(job, parts[0]);
  if (rooms.length + parts.length === 0) {
    useDraw.setState({ note: 'Select rooms or ducts to copy.' });
    return;
  }
  const { storey } = useWorkbench.getState();
  clip = {
    clip: copy(job, { rooms, parts, ...(system && { system }) }),
    ...(system && { system }),
    middle: middleOf(items.flatMap((item) => pointsOf(job, storey, item))),
  };
  useDraw.setState({ note: `Copied ${rooms.length + parts.length}. Ctrl+V puts it at the pointer.` });
};

/** Pastes what was copied with its middle at the pointer, on the grid. */
export const pasteCopied = (): void => {
  const context = contextNow();
  const held = clip;
  if (!context || !held) return;
  const { place } = useDraw.getState();
  const grid = gridOf[context.writing.units];
  const whole = (way: number): number => Math.round(way / grid) * grid;
  const by: PlanPoint = place
    ? [whole(place.at[0] - held.middle[0]), whole(place.at[1] - held.middle[1])]
    : [4 * grid, -4 * grid];
  const before = new Set(idsOf(context.job));
  const problem = perform({
    label: 'Paste',
    change: (job) =>
      paste(job, held.clip, { ...context.writing, by, ...(held.system && { system: held.system }) }),
  });
  useDraw.setState({ note: problem });
  const now = jobNow();
  if (problem === undefined && now)
    select([
      ...now.rooms.filter(({ id }) => !before.has(id)).map(({ id }): Selected => ({ kind: 'room', id })),
      ...(now.systems ?? [])
        .flatMap((system) => system.parts)
        .filter(({ id }) => !before.has(id))
        .map(({ id }): Selected => ({ kind: 'part', id })),
    ]);
};

const idsOf = (job: Job): readonly string[] => [
  ...job.rooms.map(({ id }) => id),
  ...(job.systems ?? []).flatMap((system) => system.parts.map(({ id }) => id)),
];

/** Moves what is selected by steps of the grid. */
export const nudgeSelected = (east: number, north: number): void => {
  const context = contextNow();
  const items = selection();
  if (!context || items.length === 0) return;
  const grid = gridOf[context.writing.units];
  const by: PlanPoint = [east * grid, north * grid];
  tell({
    label: `Move ${items.length === 1 ? items[0]!.id : `${items.length} things`}`,
    change: (job) =>
      items.reduce((now, item) => {
        const at = pointsOf(now, context.storey, item)[0] ?? [0, 0];
        return moveItems(now, [item], by, [at[0] + by[0], at[1] + by[1]], context.storey, context.writing);
      }, job),
  });
};

export const selectAll = (): void => {
  const context = contextNow();
  const far = 1e6;
  if (context)
    select(
      within(context.job, context.storey, [
        [-far, -far],
        [far, far],
      ]),
    );
};

/** Shows what is selected as large as it goes; with nothing selected, the whole storey. */
export const zoomToSelection = (): void => {
  const context = contextNow();
  const { size } = useDraw.getState();
  if (!context || !size) return;
  const points = selection().flatMap((item) => pointsOf(context.job, context.storey, item));
  if (points.length === 0) zoomToAll();
  else useDraw.setState({ view: fitted(points, { width: size.width * 0.7, height: size.height * 0.7 }) });
  if (points.length > 0)
    useDraw.setState(({ view }) => ({
      view: view && { ...view, x: view.x + size.width * 0.15, y: view.y + size.height * 0.15 },
    }));
};

export const zoomToAll = (): void => {
  const job = jobNow();
  const { size } = useDraw.getState();
  const { storey } = useWorkbench.getState();
  if (!job || !size) return;
  const points = [
    ...roomsOn(job, storey).flatMap(({ id }) => pointsOf(job, storey, { kind: 'room', id })),
    ...(job.systems ?? []).flatMap((system) =>
      system.parts.flatMap(({ id }) => pointsOf(job, storey, { kind: 'part', id })),
    ),
  ];
  // A first small room stands in the middle of an empty plot.
  const view = fitted(points, size);
  const most = Math.min(size.width / 16, size.height / 10);
  useDraw.setState({
    view: zoomed(view, Math.min(1, most / view.scale), [size.width / 2, size.height / 2]),
  });
};
