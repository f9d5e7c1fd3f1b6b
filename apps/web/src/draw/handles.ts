import type { PlanPoint } from '@airledger/engine';
import { edgesOf, type Job, outlineOf, planPathOf } from '@airledger/job';
import { partOfRegister, partsOn } from './scene.ts';
import type { Selected } from './selection.ts';

/** Places by which a selected room, zone or duct is pulled: its corners or bends, and the middles of its sides. */
export type Handle = {
  readonly of: Selected;
  readonly part: 'corner' | 'side';
  readonly index: number;
  readonly at: PlanPoint;
};

const middle = (a: PlanPoint, b: PlanPoint): PlanPoint => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

const ofOutline = (of: Selected, outline: readonly PlanPoint[]): readonly Handle[] => [
  ...outline.map((at, index): Handle => ({ of, part: 'corner', index, at })),
  ...edgesOf(outline).map(([a, b], index): Handle => ({ of, part: 'side', index, at: middle(a, b) })),
];

/** Handles of what is selected; none while more than one thing is. */
export const handlesOf = (job: Job, storey: number, selection: readonly Selected[]): readonly Handle[] => {
  const [item, ...others] = selection;
  if (!item || others.length > 0) return [];
  if (item.kind === 'room') {
    const room = job.rooms.find(({ id, storey: on = 1 }) => id === item.id && on === storey);
    return room ? ofOutline(item, outlineOf(room)) : [];
  }
  if (item.kind === 'zone') {
    const zone = job.zones?.find(({ id }) => id === item.id);
    return zone ? ofOutline(item, outlineOf(zone)) : [];
  }
  const id =
    item.kind === 'register' ? partOfRegister(job, item.id)?.id : item.kind === 'part' ? item.id : '';
  const part = partsOn(job, storey).find((each) => each.part.id === id)?.part;
  if (!part) return [];
  const of: Selected = { kind: 'part', id: part.id };
  const path = planPathOf(part);
  return [
    ...path.map((at, index): Handle => ({ of, part: 'corner', index, at })),
    ...path.slice(1).map((at, index): Handle => ({ of, part: 'side', index, at: middle(path[index]!, at) })),
  ];
};
