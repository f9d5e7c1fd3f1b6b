import type { Account } from '../account/types.ts';
import { openingDischarge } from '../ducts/opening-flow.ts';
import type { Door, Survey } from '../survey/types.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atMost, undecided } from './verdict.ts';

/**
 * Pressure of each room with a supply against the space across its door when the door is shut.
 * Doors that are shut in the survey: from the account. Otherwise the orifice law on undercut and transfer area,
 * which is too high because other leaks help; so it can pass a room but not fail it.
 */
export function roomPressure(survey: Survey, accounts: readonly Account[]): readonly Check[] {
  if (accounts.length === 0) return [];
  return survey.rooms.flatMap((room) => {
    const doors = survey.doors.filter(({ between }) => between.includes(room.id));
    const real = doors.filter((door) => door.shutArea_m2 < door.openArea_m2);
    // A room with an opening that can not be shut has its way back for air.
    if (real.length === 0 || real.length < doors.length) return [];
    const worst = Math.max(...accounts.map((account) => shutPressure(survey, account, room.id, real)));
    return [
      check(
        room.id,
        room.name,
        worst,
        real.every((door) => !door.open),
      ),
    ];
  });
}

function check(room: string, name: string, pressure_Pa: number, isSolved: boolean): Check {
  const rule = tradeLimit('room-pressure');
  const verdict = atMost(pressure_Pa, rule.most!);
  const isBound = !isSolved && verdict.result === 'fail';
  return {
    ...(isBound ? undecided(verdict) : verdict),
    id: `trade-room-pressure-${room}`,
    group: 'trade',
    title: `${rule.title}: ${name}`,
    subject: room,
    quantity: 'pressure',
    clause: rule.title,
    source: rule.source,
    evidence: isSolved
      ? 'Computed from the survey with the door shut; a gauge across the door would confirm it.'
      : `The door is open in the survey: highest pressure from the gaps of the shut door alone.${isBound ? ' A gauge across the shut door would settle it.' : ''}`,
    ...(verdict.result === 'fail' && {
      remedy: 'Give the air a way back: undercut, transfer grille or jump duct.',
    }),
  };
}

function shutPressure(survey: Survey, account: Account, room: string, doors: readonly Door[]): number {
  const standing = account.rooms.find((one) => one.room === room)!;
  if (doors.every((door) => !door.open)) return Math.abs(standing.pressureToHall_Pa);
  // Area of an orifice that passes as much: a transfer path may have another loss than a sharp hole.
  const transfers = survey.transfers
    .filter(({ between }) => between.includes(room))
    .reduce((sum, path) => sum + path.freeArea_m2 / Math.sqrt(path.lossCoefficient), 0);
  const gaps = doors.reduce((sum, door) => sum + door.shutArea_m2 * openingDischarge, 0);
  const net = Math.abs(netSupply(account, room));
  if (net === 0) return 0;
  return (account.air.referenceDensity_kgm3 / 2) * (net / (transfers + gaps)) ** 2;
}

/** Air that supply registers bring into a room beyond what its return grilles take, m³/s. */
function netSupply({ air }: Account, room: string): number {
  const node = air.nodes.findIndex(({ kind, id }) => kind === 'room' && id === room);
  return air.elements.reduce((sum, element, index) => {
    if (element.kind !== 'terminal') return sum;
    const flow = air.solution.flow_m3s[index]!;
    return sum + (element.to === node ? flow : element.from === node ? -flow : 0);
  }, 0);
}
