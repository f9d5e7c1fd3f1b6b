import { airTemperatures } from '../account/air-temperatures.ts';
import type { Account } from '../account/types.ts';
import { curesBetween } from './cures.ts';
import { deliveredTo } from './delivered-to.ts';
import { fanFlow } from './drawn-warmth.ts';
import { wallsBetween } from './duct-walls.ts';
import { registerHeat } from './register-heat.ts';
import { needed } from './served.ts';
import { solveSubsets } from './solve-subsets.ts';
import type { RoomGroup, Service } from './types.ts';

/** What two groups of rooms get under every subset of what can be cured on their ways. */
export type GroupGame = {
  /** Cures of the air, then, for heat, duct walls. */
  readonly causes: readonly { readonly id: string; readonly what: string }[];
  readonly of: readonly [better: GroupService, worse: GroupService];
  /** What the fan of each system moves, in the order of the survey, by mask of cures, m³/s. */
  readonly fan_m3s: readonly Float64Array[];
};

type GroupService = {
  /** m³/s of air or W of heat. */
  readonly needed: number;
  /** The same, by mask of causes. */
  readonly delivered: Float64Array;
  /** Air by the mask of its cures, m³/s. */
  readonly air_m3s: Float64Array;
};

/**
 * Solves the air for every subset of cures between two groups; heat is carried in each through ducts of which every
 * subset of walls is perfectly insulated.
 * @throws RangeError for a group with a room that is not in the account, or that needs nothing
 */
export function groupGame(
  account: Account,
  service: Service,
  better: RoomGroup,
  worse: RoomGroup,
): GroupGame {
  const { survey, mode, loads } = account;
  const cures = curesBetween(survey, better, worse);
  const walls = service === 'heat' ? wallsBetween(account, better, worse) : [];
  const needs = needed(account, service);
  const forGroup = ({ name, rooms }: RoomGroup) => {
    const indices = rooms.map((room) => account.rooms.findIndex((one) => one.room === room));
    const need = total(indices, needs);
    if (!(need > 0)) throw new RangeError(`'${name}' needs no ${service} in this account`);
    const air_m3s = new Float64Array(2 ** cures.length);
    const delivered = service === 'air' ? air_m3s : new Float64Array(2 ** (cures.length + walls.length));
    return { rooms, indices, needed: need, air_m3s, delivered };
  };
  const of = [forGroup(better), forGroup(worse)] as const;
  const fan_m3s = survey.systems.map(() => new Float64Array(2 ** cures.length));
  const heatOf = service === 'heat' ? registerHeat(account, walls) : undefined;
  solveSubsets(survey, mode, airTemperatures(survey, mode, loads), cures, (mask, air) => {
    for (const { rooms, air_m3s } of of) air_m3s[mask] = deliveredTo(air, rooms);
    survey.systems.forEach(({ id }, s) => {
      fan_m3s[s]![mask] = fanFlow(air, id);
    });
    heatOf?.(air).forEach((brought_W, insulated) => {
      for (const { indices, delivered } of of)
        delivered[mask | (insulated << cures.length)] = total(indices, brought_W);
    });
  });
  return { causes: [...cures, ...walls].map(({ id, what }) => ({ id, what })), of, fan_m3s };
}

const total = (indices: readonly number[], values: ArrayLike<number>): number =>
  indices.reduce((sum, index) => sum + (values[index] ?? Number.NaN), 0);
