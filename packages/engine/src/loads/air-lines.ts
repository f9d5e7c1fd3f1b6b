import type { Room, Ventilator } from '../survey/types.ts';
import { combinedInfiltration_m3s } from './infiltration.ts';
import { degrees, figure, type LoadContext } from './load-context.ts';
import type { LoadLine } from './types.ts';

const infiltrationSource =
  'ASHRAE Handbook—Fundamentals 2021, ch. 17, infiltration driving force; by share of the envelope’s leaks';
const ventilationSource = 'ASHRAE Handbook—Fundamentals 2021, ch. 17, ventilation load with heat recovery';
const unbalancedSource = 'ASHRAE Handbook—Fundamentals 2021, ch. 17, eq. 12–14, unbalanced ventilation';

type Outdoor = {
  readonly room: string;
  readonly of: string;
  readonly what: string;
  readonly cause: 'infiltration' | 'ventilation';
  readonly flow_m3s: number;
  readonly sensibleRecovery: number;
  readonly latentRecovery: number;
  readonly source: string;
};

/** Load of outdoor air that enters a room: C_s·Q·Δt, in cooling also C_l·Q·ΔW, less what is recovered. */
const outdoorAirLine = (air: Outdoor, context: LoadContext): LoadLine => {
  const { mode, airFactors, difference_K, indoor, outdoor } = context;
  const conductance_WK = airFactors.sensible * air.flow_m3s * (1 - air.sensibleRecovery);
  const [warm, cool] = mode === 'heating' ? [indoor, outdoor] : [outdoor, indoor];
  const flow = `${figure(air.flow_m3s * 1000, 2)} L/s`;
  const kept = (recovery: number): string => (recovery > 0 ? ` × (1 − ${figure(recovery, 2)})` : '');
  const sensible = `${figure(airFactors.sensible / 1000, 3)} W/(L/s·K) × ${flow}${kept(air.sensibleRecovery)} × (${degrees(warm.temperature_C)} − ${degrees(cool.temperature_C)}) K`;
  const line = {
    room: air.room,
    of: air.of,
    what: air.what,
    cause: air.cause,
    beyond: 'outdoors',
    sensible_W: conductance_WK * difference_K,
    conductance_WK,
    source: air.source,
  };
  if (mode === 'heating') return { ...line, latent_W: 0, formula: sensible };
  const moister = outdoor.humidityRatio - indoor.humidityRatio;
  return {
    ...line,
    latent_W: airFactors.latent * air.flow_m3s * (1 - air.latentRecovery) * moister,
    formula: `${sensible}; latent ${figure(airFactors.latent / 1000, 0)} W/(L/s) × ${flow}${kept(air.latentRecovery)} × (${figure(outdoor.humidityRatio, 5)} − ${figure(indoor.humidityRatio, 5)})`,
  };
};

/** Rooms that outdoor air reaches through the envelope, each with its share. */
const spread = (rooms: readonly Room[], flow_m3s: number) =>
  rooms
    .filter((room) => room.envelopeShare > 0)
    .map((room) => ({ room: room.id, flow_m3s: flow_m3s * room.envelopeShare }));

const noRecovery = { sensibleRecovery: 0, latentRecovery: 0 };

/** Natural infiltration, as if no fan ran. */
export const infiltrationLines = (natural_m3s: number, context: LoadContext): LoadLine[] =>
  natural_m3s > 0
    ? spread(context.survey.rooms, natural_m3s).map(({ room, flow_m3s }) =>
        outdoorAirLine(
          {
            room,
            of: room,
            what: 'infiltration',
            cause: 'infiltration',
            flow_m3s,
            ...noRecovery,
            source: infiltrationSource,
          },
          context,
        ),
      )
    : [];

/** Flow that ventilators which only blow in, and those which only draw out, move beyond each other. */
const excessOf = (ventilators: readonly Ventilator[]): number => {
  const total = (kind: Ventilator['kind']): number =>
    ventilators.reduce((sum, fan) => sum + (fan.kind === kind ? fan.flow_m3s : 0), 0);
  return total('supply') - total('exhaust');
};

/**
 * Outdoor air that running ventilators bring in beyond natural infiltration.
 *
 * A balanced ventilator brings its flow, less recovery, to its room (or to all rooms by envelope share).
 * One-way fans count only with the air they add: what they pull or push takes the place of part of the infiltration,
 * so the house gains max(Q_u, Q_i + Q_u/2) − Q_i, to the rooms of supply fans or, under exhaust, to all rooms.
 * Air that a ventilator gives to a return duct is not a load of a room; the heat balance finds it in that duct.
 */
export const ventilationLines = (natural_m3s: number, context: LoadContext): LoadLine[] => {
  const { survey } = context;
  const running = survey.ventilators.filter((fan) => fan.running && fan.flow_m3s > 0);
  const placed = running.filter((fan) => fan.returnPart === undefined);
  const lines: LoadLine[] = [];
  const add = (
    fan: { readonly id: string; readonly sensibleRecovery: number; readonly latentRecovery: number },
    shares: readonly { readonly room: string; readonly flow_m3s: number }[],
    what: string,
    source: string,
  ) => {
    for (const { room, flow_m3s } of shares)
      lines.push(
        outdoorAirLine(
          {
            room,
            of: fan.id,
            what,
            cause: 'ventilation',
            flow_m3s,
            sensibleRecovery: fan.sensibleRecovery,
            latentRecovery: fan.latentRecovery,
            source,
          },
          context,
        ),
      );
  };
  const reach = (fan: Ventilator, flow_m3s: number) =>
    fan.room === undefined ? spread(survey.rooms, flow_m3s) : [{ room: fan.room, flow_m3s }];

  for (const fan of placed)
    if (fan.kind === 'balanced')
      add(fan, reach(fan, fan.flow_m3s), 'balanced ventilation', ventilationSource);

  // Supply and exhaust fans that match make a balanced pair without recovery.
  const supplies = placed.filter((fan) => fan.kind === 'supply');
  const exhausts = placed.filter((fan) => fan.kind === 'exhaust');
  const excess = excessOf(placed);
  const added_m3s = combinedInfiltration_m3s(natural_m3s, Math.abs(excess)) - natural_m3s;
  const supplied = supplies.reduce((sum, fan) => sum + fan.flow_m3s, 0);
  const exhausted = exhausts.reduce((sum, fan) => sum + fan.flow_m3s, 0);
  const matched = Math.min(supplied, exhausted);
  const bySupply = matched + (excess > 0 ? added_m3s : 0);
  for (const fan of supplies)
    add(
      { id: fan.id, ...noRecovery },
      reach(fan, (bySupply * fan.flow_m3s) / supplied),
      'supply ventilation',
      unbalancedSource,
    );
  if (excess < 0)
    for (const fan of exhausts)
      add(
        { id: fan.id, ...noRecovery },
        spread(survey.rooms, (added_m3s * fan.flow_m3s) / exhausted),
        'exhaust ventilation',
        unbalancedSource,
      );
  return lines;
};
