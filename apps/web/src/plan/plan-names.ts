import type { Account } from '@airledger/engine';
import type { Format } from '../figure/format.ts';
import type { Drawing, DrawnRibbon } from './drawing.ts';
import { isShort, standing } from './standing.ts';

/** What a screen reader says of a room on the plan. */
export const roomLabel = (account: Account, id: string, format: Format): string => {
  const room = account.rooms.find((each) => each.room === id);
  if (!room) return id;
  const stands = standing(room);
  const words = isShort(stands) ? `, short ${format.full(stands.short_m3s, 'airflow', 0)}` : '';
  return `${room.name}: ${format.of(room.delivered_m3s, room.needed_m3s, 'airflow')}${words}, ${format.full(room.predicted_C, 'temperature')}`;
};

/** What a screen reader says of a ribbon: its air at both ends, and what it loses. */
export const ribbonLabel = (ribbon: DrawnRibbon, drawing: Drawing, format: Format): string => {
  const { part, pieces } = ribbon;
  const near = format.full(Math.abs(pieces[0]?.flow_m3s ?? 0), 'airflow', 0);
  const far = format.full(Math.abs(pieces.at(-1)?.flow_m3s ?? 0), 'airflow', 0);
  const leaks = drawing.drops
    .filter((drop) => drop.part.id === part.id)
    .reduce((sum, drop) => sum + drop.flow_m3s, 0);
  const flows = near === far ? near : `${near} at the air handler end, ${far} at the far end`;
  const lost =
    leaks > 0
      ? `, ${part.side === 'return' ? 'draws in' : 'loses'} ${format.full(leaks, 'airflow', 0)} by leaks`
      : '';
  return `${part.name}, ${part.side} ${part.role}: ${flows}${lost}`;
};
