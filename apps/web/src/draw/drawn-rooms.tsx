import { type JobRoom, type JobZone, outlineOf } from '@airledger/job';
import { memo } from 'react';
import { closed } from '../plan/ribbon-shape.ts';
import type { Band } from '../plan/standing.ts';
import { toSheet } from './sheet.ts';

const pathOf = (space: Parameters<typeof outlineOf>[0]): string => closed(outlineOf(space).map(toSheet));

/** A room's floor, shaded by the share of its air that it gets. Drawn anew only when it changes itself. */
export const DrawnRoom = memo(({ room, band, chosen }: { room: JobRoom; band: Band; chosen: boolean }) => (
  <path
    className={`drawn-room band-${band}${chosen ? ' chosen' : ''}`}
    data-room={room.id}
    d={pathOf(room)}
  />
));

/** A buffer zone: dashed when it lies above or below the storey in view. */
export const DrawnZone = memo(
  ({ zone, beyond, chosen }: { zone: JobZone; beyond: boolean; chosen: boolean }) => (
    <path
      className={`drawn-zone${beyond ? ' beyond' : ''}${chosen ? ' chosen' : ''}`}
      data-zone={zone.id}
      d={pathOf(zone)}
    />
  ),
);

/** A storey above or below, as a thin outline to draw after. */
export const GhostRoom = memo(({ room }: { room: JobRoom }) => (
  <path className="ghost-room" d={pathOf(room)} />
));
