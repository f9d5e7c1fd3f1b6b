import { addZone, type Job, type JobZone, uniqueId } from '@airledger/job';
import type { Deed, ToolContext } from '../tool.ts';
import { outlineTool } from './outline.ts';

/** Storey of a zone drawn while another storey is in view; absent where that of its kind is right. */
const storeyFor = (job: Job, kind: JobZone['kind'], storey: number): number | undefined => {
  const storeys = job.rooms.map((room) => room.storey ?? 1);
  if (kind === 'attic') return storey === Math.max(...storeys) ? undefined : storey + 1;
  if (kind === 'crawlspace' || kind === 'basement')
    return storey === Math.min(...storeys) ? undefined : storey - 1;
  return storey === 1 ? undefined : storey;
};

/** A deed that adds a buffer zone of the kind in hand; without an outline it covers or carries the whole storey. */
export const zoneDeed = (
  outline_m: readonly (readonly [number, number])[] | undefined,
  { job, storey, options: { zoneKind }, writing }: ToolContext,
): Deed => {
  const id = uniqueId(job, zoneKind);
  const on = storeyFor(job, zoneKind, storey);
  return {
    label: `Draw ${id}`,
    change: (now) =>
      addZone(
        now,
        {
          id,
          kind: zoneKind,
          ...(on !== undefined && { storey: on }),
          ...(outline_m && { outline_m }),
        },
        writing,
      ),
    select: [{ kind: 'zone', id }],
  };
};

/** A buffer zone, corner by corner. */
export const zone = outlineTool('zone', zoneDeed);
