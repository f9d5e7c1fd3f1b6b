import type { Account, AirSystem, Survey } from '@airledger/engine';
import { formatQuantity } from '@airledger/engine';
import { setMany } from '../edit/index.ts';
import { siOf } from '../edit/typed-text.ts';
import { valueAt } from '../states/job-path.ts';
import type { Proposal } from './candidate.ts';
import { ofSystem, partPath, workAt } from './house-parts.ts';

/** Pressure drops above these at the system's airflow are worth work (common practice, no source). */
const most = { filter_Pa: 37, coil_Pa: 80 };
/** A tap of a blower is about this step of flow (from memory). */
const tap = 0.1;

const dropAt = (drop: { drop_Pa: number; flow_m3s: number; exponent: number }, flow_m3s: number): number =>
  drop.flow_m3s > 0 ? drop.drop_Pa * (flow_m3s / drop.flow_m3s) ** drop.exponent : 0;

/** Filter, coil and blower of each system, where they stand in the way of the air. */
export const proposeAirHandlerWork = (survey: Survey, accounts: readonly Account[]): readonly Proposal[] =>
  survey.systems.flatMap((system) => [
    ...filters(survey, system, accounts),
    ...coil(survey, system, accounts),
    ...speeds(survey, system, accounts),
  ]);

const flowOf = (accounts: readonly Account[], system: AirSystem): number =>
  Math.max(...accounts.map(({ systems }) => systems.find((one) => one.system === system.id)!.fanFlow_m3s));

const filters = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] => {
  const flow_m3s = flowOf(accounts, system);
  const grilles = system.parts.filter((part) => part.terminal?.filter);
  const places = [
    ...(dropAt(system.airHandler.filter, flow_m3s) > most.filter_Pa
      ? [`systems/${system.id}/airHandler/filter`]
      : []),
    ...grilles
      .filter((part) => dropAt(part.terminal!.filter!, flow_m3s / grilles.length) > most.filter_Pa)
      .map((part) => `${partPath(system.id, part.id)}/terminal/filter`),
  ];
  if (places.length === 0) return [];
  const common = {
    place: system.id,
    where: places,
    work: [{ access: 'open' as const, quantity: places.length }],
    claims: [`filter/${system.id}`],
  };
  const at = formatQuantity(flow_m3s, 'airflow', 'ip');
  return [
    {
      ...common,
      repair: 'filter-changed',
      name: `Change the filter${ofSystem(survey, system)}`,
      apply: (house) => setMany(house, places, { drop: '0.14 in.wc (0.12 to 0.25 in.wc)', at }),
    },
    {
      ...common,
      repair: 'filter-enlarged',
      name: `Enlarge the filter rack${ofSystem(survey, system)}`,
      work: workAt(survey, [{ zone: system.airHandler.zone, quantity: places.length }]),
      apply: (house) => setMany(house, places, { drop: '0.08 in.wc (0.06 to 0.12 in.wc)', at }),
    },
  ];
};

const coil = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] => {
  const { coil: drop, zone } = system.airHandler;
  if (!system.equipment.cooling || dropAt(drop, flowOf(accounts, system)) < most.coil_Pa) return [];
  const path = `systems/${system.id}/airHandler/coil`;
  return [
    {
      repair: 'coil-cleaned',
      place: system.id,
      name: `Clean the coil${ofSystem(survey, system)}`,
      where: [path],
      work: workAt(survey, [{ zone, quantity: 1 }]),
      claims: [],
      apply: (house) => {
        const before = valueAt(house, path);
        const kept = typeof before === 'object' && before !== null ? before : {};
        return setMany(house, [path], {
          ...kept,
          drop: '0.22 in.wc (0.18 to 0.26 in.wc)',
          at: formatQuantity(system.designAirflow_m3s.cooling, 'airflow', 'ip'),
        });
      },
    },
  ];
};

/** A tap up where the air falls short and static allows, a tap down for ducts that will be tight. */
const speeds = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] => {
  const standings = accounts.map(({ systems }) => systems.find((one) => one.system === system.id)!);
  const weak = standings.some(
    (one) =>
      one.fanFlow_m3s < 0.95 * one.designAirflow_m3s && one.externalStatic_Pa < one.ratedExternalStatic_Pa,
  );
  const steps = [
    ...(weak ? [['fan-up', 1 + tap, 'Raise'] as const] : []),
    ['fan-down', 1 - tap, 'Lower'] as const,
  ];
  return steps.map(([repair, factor, word]) => ({
    repair,
    place: system.id,
    name: `${word} the fan speed by a tap${ofSystem(survey, system)}`,
    where: [`systems/${system.id}/airHandler/fan`],
    work: [{ access: 'open' as const, quantity: 1 }],
    claims: [`fan/${system.id}`],
    apply: (house) => ({
      ...house,
      systems: house.systems!.map((each) => {
        if (each.id !== system.id) return each;
        const { fan = {} } = each.airHandler;
        const held = system.airHandler.fan.constantFlow_m3s;
        const text = (flow_m3s: number): string => formatQuantity(flow_m3s, 'airflow', 'ip');
        const table = (mode: 'heating' | 'cooling'): string[] =>
          system.airHandler.fan.tables[mode].map(
            ([flow, rise]) =>
              `${text(flow * factor)} at ${formatQuantity(rise * factor ** 2, 'pressure', 'ip')}`,
          );
        const { tableIncludes: _, ...rest } = fan;
        const faster = held
          ? {
              ...fan,
              holds: { heating: text(held.heating * factor), cooling: text(held.cooling * factor) },
            }
          : { ...rest, heatingTable: table('heating'), coolingTable: table('cooling') };
        // The power of a fan goes with the cube of its speed, its flow with the first power.
        const power = siOf(fan.power, 'fanPower') ?? system.airHandler.fan.power_Wsm3;
        return {
          ...each,
          airHandler: {
            ...each.airHandler,
            fan: { ...faster, power: formatQuantity(power * factor ** 2, 'fanPower', 'ip') },
          },
        };
      }),
    }),
  }));
};
