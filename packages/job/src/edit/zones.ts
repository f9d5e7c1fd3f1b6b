import type { PlanPoint } from '@airledger/engine';
import type { Job, JobZone } from '../schema/job-schema.ts';
import { outlineOf } from '../survey/plan.ts';
import { EditRefused } from './edit-refused.ts';
import { moved } from './geometry.ts';
import { changedIn, found } from './in-job.ts';
import { redraw } from './redraw.ts';
import { heldBy, withoutSpace } from './rooms.ts';
import { pointText } from './typed-text.ts';
import type { Writing } from './walls-from-outline.ts';

/** A buffer zone to draw; without an outline it covers or carries the whole storey. */
export type NewZone = Omit<JobZone, 'outline'> & { readonly outline_m?: readonly PlanPoint[] };

const outlineText = (outline: readonly PlanPoint[], writing: Writing): string[] => {
  if (outline.length < 3) throw new EditRefused('A zone needs at least three corners.');
  return outline.map((corner) => pointText(corner, writing.units));
};

/** A zone more; ceilings, floors and walls of drawn rooms lead to it where they meet it. */
export const addZone = (job: Job, { outline_m, ...zone }: NewZone, writing: Writing): Job => {
  if ([...job.rooms, ...(job.zones ?? [])].some((each) => each.id === zone.id))
    throw new EditRefused(`There is a room or zone "${zone.id}" already.`);
  const added: JobZone = {
    ...zone,
    ...(outline_m && { outline: outlineText(outline_m, writing) }),
  };
  return redraw({ ...job, zones: [...(job.zones ?? []), added] }, writing);
};

/** The zone with another outline; sizes typed for the old one go. */
export const setZoneOutline = (
  job: Job,
  id: string,
  outline_m: readonly PlanPoint[],
  writing: Writing,
): Job => {
  found(job.zones, id, 'zone');
  const outline = outlineText(outline_m, writing);
  const zones = changedIn(job.zones!, id, ({ floorArea: _f, volume: _v, ...zone }) => ({ ...zone, outline }));
  return redraw({ ...job, zones: [...zones] }, writing);
};

/** A zone moved as it is; refused when it is not drawn. */
export const moveZone = (job: Job, id: string, by: PlanPoint, writing: Writing): Job => {
  const outline = outlineOf(found(job.zones, id, 'zone'));
  return setZoneOutline(
    job,
    id,
    outline.map((corner) => moved(corner, by)),
    writing,
  );
};

/** A zone less; drawn rooms look outdoors, or onto the ground, where it was. Refused while ducts stand in it. */
export const deleteZone = (job: Job, id: string, writing: Writing): Job => {
  found(job.zones, id, 'zone');
  const held = [...new Set(heldBy(job, id))];
  if (held.length > 0) throw new EditRefused(`"${id}" holds ${held.join(', ')}: move or delete that first.`);
  return redraw(withoutSpace(job, id), writing);
};
