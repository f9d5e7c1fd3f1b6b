import type { Account, DuctPart, Fact, RoomStanding } from '@airledger/engine';
import type { Format } from '../figure/format.ts';
import type { Provenance, ProvenanceInput } from '../figure/provenance.ts';

/** Figures of a room that can be asked where they come from. */
export type RoomFigure = 'load' | 'ductLoss' | 'needed' | 'delivered' | 'arrives' | 'predicted' | 'pressure';

/** Where a figure of a room's card comes from. */
export const roomProvenance = (
  account: Account,
  room: RoomStanding,
  figure: RoomFigure,
  format: Format,
  range?: string,
): Provenance => ({ ...builders[figure](account, room, format), range });

type Builder = (account: Account, room: RoomStanding, format: Format) => Provenance;

const load: Builder = (account, room, format) => ({
  title: `Load of ${room.name}`,
  value: format.full(room.load_W + room.ductLoss_W, 'power'),
  formula: 'Sum of the lines of the load, plus what its ducts lose on the way.',
  inputs: [
    ...account.loads.lines
      .filter((line) => line.room === room.room)
      .toSorted((a, b) => Math.abs(b.sensible_W) - Math.abs(a.sensible_W))
      .slice(0, 8)
      .map((line) => ({ name: line.what, value: format.full(line.sensible_W, 'power') })),
    { name: 'its ducts', value: format.full(room.ductLoss_W, 'power') },
  ],
  source: 'each line names its own, see Loads',
});

const ductLoss: Builder = (account, room, format) => ({
  title: `Ducts of ${room.name}`,
  value: format.full(room.ductLoss_W, 'power'),
  formula:
    'Heat that leaves through duct walls and with leaking air on this room’s way, shared by the air on its way here; every room at its set point.',
  inputs: room.losses
    .filter((loss) => Math.abs(loss.sensible_W) >= 0.5)
    .toSorted((a, b) => Math.abs(b.sensible_W) - Math.abs(a.sensible_W))
    .slice(0, 8)
    .map((loss) => ({
      name: `${partName(account, loss.part)}: ${loss.what}`,
      value: format.full(loss.sensible_W, 'power'),
    })),
  source: 'the heat balance of this house, solved with its air',
});

const needed: Builder = (account, room, format) => {
  const typed = account.survey.rooms.find((each) => each.id === room.room)?.designAirflow_m3s?.[account.mode];
  const conducted = room.losses
    .filter((loss) => loss.cause === 'supply conduction')
    .reduce((sum, loss) => sum + loss.sensible_W, 0);
  return {
    title: `Air that ${room.name} needs`,
    value: format.full(room.needed_m3s, 'airflow'),
    formula:
      typed === undefined
        ? 'The system’s design airflow, shared over its rooms by load and heat conducted by their ducts. Leaks do not raise the need.'
        : 'Typed for this room in the survey.',
    inputs:
      typed === undefined
        ? [
            { name: 'room load', value: format.full(room.load_W, 'power') },
            { name: 'conducted by its ducts', value: format.full(conducted, 'power') },
            { name: 'house load', value: format.full(account.house.load_W, 'power') },
            ...account.systems.map((system) => ({
              name: `design airflow, ${system.name}`,
              value: format.full(system.designAirflow_m3s, 'airflow'),
            })),
          ]
        : [],
    source: typed === undefined ? 'common practice of sharing airflow by load, no source' : 'the survey',
  };
};

const delivered: Builder = (account, room, format) => ({
  title: `Air that ${room.name} gets`,
  value: format.full(room.delivered_m3s, 'airflow'),
  formula:
    'Air through its registers, where the pressures of fan, ducts, leaks, doors and rooms all balance at once.',
  inputs: [
    ...runsOf(account, room.room).flatMap((part) => partInputs(account, part, format)),
    ...account.systems.map((system) => ({
      name: `fan flow, ${system.name}`,
      value: format.full(system.fanFlow_m3s, 'airflow'),
    })),
    { name: 'residual of the air', value: account.air.solution.residual.toExponential(1) },
  ],
  source:
    'Darcy–Weisbach friction with Colebrook’s factor, fitting coefficients and power-law leaks, solved by Newton',
});

const arrives: Builder = (account, room, format) => ({
  title: `Air arrives in ${room.name}`,
  value: format.full(room.arrives_C, 'temperature'),
  formula:
    'T leaves a duct = T around + (T enters − T around) · exp(−UA / (ṁ·cp)), mixed where ducts and leaks meet.',
  inputs: [
    ...account.systems.map((system) => ({
      name: `leaves ${system.name}`,
      value: format.full(system.leavesAt_C, 'temperature'),
    })),
    ...account.survey.zones.map((zone) => ({
      name: zone.name,
      value: format.full(account.heat.floating.temperature_C[zone.id], 'temperature'),
    })),
  ],
  source: 'exponential decay along each duct (NTU balance), while the fan runs',
});

const predicted: Builder = (account, room, format) => ({
  title: `Temperature of ${room.name}`,
  value: format.full(room.predicted_C, 'temperature'),
  formula:
    'The room drifts until what it gains, loses and is given adds up to zero, averaged over the design hour.',
  inputs: [
    { name: 'set point', value: format.full(room.setPoint_C, 'temperature') },
    ...account.systems.map((system) => ({
      name: `${system.name} runs`,
      value: format.full(system.runFraction, 'ratio'),
    })),
    { name: 'thermostat in', value: thermostats(account) },
  ],
  source: 'the heat balance of this house; the thermostat’s room is held, the others float',
});

const pressure: Builder = (account, room, format) => ({
  title: `Pressure of ${room.name}`,
  value: format.roomPressure(room.pressureToHall_Pa),
  formula:
    'Pressure of the room over the space behind its doors, while the fan runs and doors stand as surveyed.',
  inputs: account.survey.doors
    .filter((door) => door.between.includes(room.room))
    .map((door) => ({
      name: `door to ${door.between.find((id) => id !== room.room)}`,
      value: door.open ? 'open' : `shut, ${format.full(door.shutArea_m2, 'opening')} left`,
    })),
  source: 'the air of this house, solved with rooms as places of their own',
});

const builders: Record<RoomFigure, Builder> = {
  load,
  ductLoss,
  needed,
  delivered,
  arrives,
  predicted,
  pressure,
};

/** Parts that end in a room. */
export const runsOf = (account: Account, room: string): DuctPart[] =>
  account.survey.systems.flatMap((system) =>
    system.parts.filter((part) => part.side === 'supply' && part.terminal?.room === room),
  );

export const partName = (account: Account, id: string): string =>
  account.survey.systems.flatMap((system) => system.parts).find((part) => part.id === id)?.name ??
  (account.survey.systems.some((system) => system.airHandler.id === id) ? 'Air handler' : id);

const partInputs = (account: Account, part: DuctPart, format: Format): ProvenanceInput[] => {
  const known = (field: string) => howKnown(account, part, field);
  return [
    { name: `${part.name}: length`, value: format.full(part.length_m, 'length'), howKnown: known('length') },
    ...(part.flexible
      ? [{ name: `${part.name}: slack`, value: format.full(part.slack, 'ratio'), howKnown: known('slack') }]
      : []),
    ...part.leaks.map((leak) => ({
      name: `${part.name}: ${leak.place} leak at 25 Pa`,
      value: format.full(leak.flow25_m3s, 'airflow'),
      howKnown: known('leaks'),
    })),
  ];
};

/** How a field of a part is known, by the path of its fact. */
const howKnown = (account: Account, part: DuctPart, field: string): string | undefined => {
  const found = Object.entries(account.survey.facts).find(
    ([path]) => path.includes(`/${part.id}/`) && path.includes(`/${field}`),
  );
  return found && describe(found[1]);
};

const describe = (fact: Fact): string => (fact.defaulted ? `${fact.howKnown}, filled in` : fact.howKnown);

const thermostats = (account: Account): string =>
  account.survey.systems
    .map((system) => account.survey.rooms.find((room) => room.id === system.thermostatRoom)?.name)
    .join(', ');
