import type { Account, RoomStanding } from '../account/types.ts';
import { openingArea_m2 } from '../ducts/opening-flow.ts';
import { tradeLimit } from '../rules/trade-limit.ts';
import type { UnitSystem } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** What pressures in a house do while its fans run, and what is to be done about it. */
export type PressureFinding = {
  readonly kind: 'return path' | 'house pressure' | 'infiltration' | 'moisture' | 'combustion';
  /** Room, or 'house'. */
  readonly place: string;
  readonly title: string;
  readonly text: string;
  readonly remedy: string;
  readonly source: string;
};

/** Pressures below this say nothing, Pa: wind does as much (common practice, no source). */
const noticeable_Pa = 1;
/** Outdoor air that fans add, as a share of the natural, from which it is worth a word (assumed). */
const noticeableShare = 0.1;
/** Outdoor temperature below which indoor air pressed into walls may leave its moisture there, °C (common practice, no source). */
const cold_C = 0;

const computed = 'computed from the survey; a gauge would confirm it';

/**
 * Diagnosis of one account by its pressures: rooms without a way back for their air, unbalanced duct leaks, the
 * infiltration they cause, and what follows for moisture and for burners. Cautions never clear anything.
 */
export function pressureDiagnosis(account: Account, units: UnitSystem): readonly PressureFinding[] {
  return [
    ...account.rooms.flatMap((room) => returnPath(account, room, units)),
    ...housePressure(account, units),
    ...infiltration(account, units),
    ...moisture(account),
    ...combustion(account),
  ];
}

const pascal = (value: number): string => formatQuantity(value, 'pressure', 'si');

function returnPath({ loads }: Account, room: RoomStanding, units: UnitSystem): readonly PressureFinding[] {
  const { most, source } = tradeLimit('room-pressure');
  const over = Math.abs(room.pressureToHall_Pa);
  if (over <= most!) return [];
  const area = (at_Pa: number) => openingArea_m2(room.delivered_m3s, at_Pa, loads.indoor.density_kgm3);
  const missing = area(most!) - area(over);
  const isPushed = room.pressureToHall_Pa > 0;
  return [
    {
      kind: 'return path',
      place: room.room,
      title: `${room.name} has no good way ${isPushed ? 'back' : 'in'} for its air`,
      text: `It stands ${pascal(over)} ${isPushed ? 'over' : 'under'} the space past its door, where ${pascal(most!)} are usual at most.`,
      remedy: isPushed
        ? `About ${formatQuantity(missing, 'opening', units, 0)} more free area would do: undercut, transfer grille or jump duct (orifice law, other leaks left out).`
        : 'Its return takes more than its supply brings: balance the two, or open a way in.',
      source: `${source}; ${computed}`,
    },
  ];
}

/** Supply leaks beyond the envelope less return leaks from there: above zero air is blown out of the house. */
const unbalanced = ({ systems }: Account): number =>
  systems.reduce((sum, system) => sum + system.supplyLeakOutside_m3s - system.returnLeakOutside_m3s, 0);

function housePressure(account: Account, units: UnitSystem): readonly PressureFinding[] {
  const { pressureToOutdoors_Pa: pressure } = account.house;
  if (Math.abs(pressure) < noticeable_Pa) return [];
  const net = unbalanced(account);
  const because =
    Math.sign(net) === -Math.sign(pressure)
      ? `Ducts lose ${formatQuantity(Math.abs(net), 'airflow', units)} more ${net > 0 ? 'out of the house than they draw in' : 'into it than they blow out'}.`
      : 'Shut doors and exhaust fans do it, more than leaks of the ducts.';
  return [
    {
      kind: 'house pressure',
      place: 'house',
      title: `The running fan puts the house ${pressure < 0 ? 'under suction' : 'under pressure'}`,
      text: `On the ${account.mode} day it stands ${pascal(pressure)} to outdoors, as a mean over its rooms. ${because}`,
      remedy: net > 0 ? 'Seal the supply side first.' : 'Seal the return side and the cabinet first.',
      source: computed,
    },
  ];
}

function infiltration(account: Account, units: UnitSystem): readonly PressureFinding[] {
  const { inducedInfiltration_m3s: induced } = account.house;
  const natural = account.loads.infiltration_m3s;
  if (induced < noticeableShare * natural) return [];
  return [
    {
      kind: 'infiltration',
      place: 'house',
      title: 'Ducts and shut doors draw outdoor air in',
      text: `While the fan runs, ${formatQuantity(induced, 'airflow', units)} of outdoor air come in beside the ${formatQuantity(natural, 'airflow', units)} that wind and warmth bring.`,
      remedy: 'Seal ducts outside the envelope, and give rooms with shut doors a way back.',
      source: `ASHRAE Handbook—Fundamentals 2021 ch. 16 in method (from memory); ${computed}`,
    },
  ];
}

function moisture({ mode, loads, rooms }: Account): readonly PressureFinding[] {
  const sucked = rooms.filter(({ pressure_Pa }) => pressure_Pa < -noticeable_Pa);
  const pushed = rooms.filter(({ pressure_Pa }) => pressure_Pa > noticeable_Pa);
  const names = (some: readonly RoomStanding[]) => some.map(({ name }) => name).join(', ');
  if (mode === 'cooling' && sucked.length > 0 && loads.outdoor.humidityRatio > loads.indoor.humidityRatio)
    return [
      {
        kind: 'moisture',
        place: 'house',
        title: 'Humid air is drawn into walls',
        text: `${names(sucked)} stand under suction while it is more humid outside: outdoor air passes walls and ceilings on its way in and may leave its water behind cool surfaces.`,
        remedy:
          'Bring the pressures to nothing before vapour-tight finishes are put on; look behind them where it smells or is stained.',
        source: 'common practice, no source',
      },
    ];
  if (mode === 'heating' && pushed.length > 0 && loads.outdoor.temperature_C < cold_C)
    return [
      {
        kind: 'moisture',
        place: 'house',
        title: 'Room air is pressed into cold walls',
        text: `${names(pushed)} stand over outdoors in freezing weather: moist room air passes walls and ceilings on its way out and may leave its water in them.`,
        remedy:
          'Give these rooms a way back for their air, and keep the humidity of the house low till then.',
        source: 'common practice, no source',
      },
    ];
  return [];
}

function combustion({ survey, rooms }: Account): readonly PressureFinding[] {
  const { combustionInside } = survey.house;
  if (combustionInside === false) return [];
  const { least, source } = tradeLimit('depressurisation');
  const low = rooms.filter(({ pressure_Pa }) => pressure_Pa < least!);
  if (low.length === 0) return [];
  const names = low.map(({ name, pressure_Pa }) => `${name} (${pascal(pressure_Pa)})`).join(', ');
  return [
    {
      kind: 'combustion',
      place: 'house',
      title: combustionInside
        ? 'A burner inside may draw its flue gas in'
        : 'If a burner takes its air from these rooms, it may draw its flue gas in',
      text: `Below ${pascal(least!)} to outdoors: ${names}. Exhaust fans that are not in the survey lower it further.`,
      remedy:
        'Have a licensed or qualified person test draft, spillage and carbon monoxide at the worst case before any sealing, and again after it. Nothing on this page clears an appliance.',
      source,
    },
  ];
}
