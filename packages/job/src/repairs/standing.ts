import {
  type Account,
  type Check,
  checkRules,
  roomDrift_K,
  type Season,
  type Survey,
  usedModes,
} from '@airledger/engine';
import type { BothAccounts } from './candidates-of.ts';

/** How a house stands: what plans are judged by. */
export type Standing = {
  /** By mode that the house has equipment for, then room: how far it drifts from the set point on the design day, K. */
  readonly drift_K: Readonly<Partial<Record<'heating' | 'cooling', readonly number[]>>>;
  /** By system: operating leakage over fan flow, supply then return, the worse of the two design days. */
  readonly leakShare: readonly (readonly [supply: number, return_: number])[];
  /** What is failed of code and specification with the leakage that the account has, in shares of the limits; 0 passes. */
  readonly failed: { readonly code: number; readonly specification: number };
  /** Of a year; absent when none was asked for. */
  readonly year?: {
    readonly cost: number;
    readonly emission_kg: number;
    /** Degree-hours outside the tolerance, mean over the floor, K·h. */
    readonly discomfort_Kh: number;
    readonly fuels: readonly { readonly fuel: string; readonly cost: number; readonly energy_J: number }[];
  };
};

/** Drift of the rooms by mode that the house has equipment for. */
export const driftsOf = (accounts: BothAccounts): Standing['drift_K'] =>
  Object.fromEntries(usedModes(accounts.heating.survey).map((mode) => [mode, driftOf(accounts[mode])]));

export const leakSharesOf = (accounts: BothAccounts): Standing['leakShare'] => {
  const used = usedModes(accounts.heating.survey);
  return accounts.heating.survey.systems.map((_, s) => {
    const worst = (leak: 'supplyLeak_m3s' | 'returnLeak_m3s'): number =>
      Math.max(
        ...used.map((mode) => {
          const system = accounts[mode].systems[s]!;
          return system.fanFlow_m3s > 0 ? system[leak] / system.fanFlow_m3s : 0;
        }),
      );
    return [worst('supplyLeak_m3s'), worst('returnLeak_m3s')];
  });
};

const driftOf = ({ rooms }: Account): number[] => rooms.map(roomDrift_K);

/** What plans are judged by of a year. */
export const yearOf = (
  survey: Survey,
  { cost, emission_kg, rooms, byFuel }: Season,
): NonNullable<Standing['year']> => {
  const area_m2 = survey.rooms.reduce((sum, room) => sum + room.floorArea_m2, 0);
  return {
    cost,
    emission_kg,
    discomfort_Kh: survey.rooms.reduce((sum, { id, floorArea_m2 }) => {
      const comfort = rooms.find(({ room }) => room === id);
      return sum + (floorArea_m2 / area_m2) * ((comfort?.tooCold_Kh ?? 0) + (comfort?.tooWarm_Kh ?? 0));
    }, 0),
    fuels: byFuel.map(({ fuel, cost: paid, energy_J }) => ({ fuel, cost: paid, energy_J })),
  };
};

/** Checks failed if a test found just the leakage that the account has. */
export const failedChecks = (accounts: BothAccounts): readonly Check[] =>
  checkRules(withExpectedTests(accounts.heating.survey, accounts), accounts).filter(
    ({ result }) => result === 'fail',
  );

export const failedOf = (accounts: BothAccounts): Standing['failed'] => {
  const failed = failedChecks(accounts);
  const sum = (group: 'code' | 'specification'): number =>
    failed
      .filter((check) => check.group === group)
      .reduce((total, { margin, limit }) => total + (margin && limit ? Math.abs(margin / limit) : 1), 0);
  return { code: sum('code'), specification: sum('specification') };
};

/** The survey with a test of each side and of leakage to outdoors that finds what the survey holds. */
const withExpectedTests = (survey: Survey, accounts: BothAccounts): Survey => ({
  ...survey,
  leakageTests: accounts.heating.systems.flatMap(
    ({ system, supplyLeak25_m3s, returnLeak25_m3s, ...standing }) => {
      const test = {
        system,
        stage: 'after construction',
        howKnown: 'measured',
      } as const;
      const operating = standing.supplyLeak_m3s + standing.returnLeak_m3s;
      const outside = standing.supplyLeakOutside_m3s + standing.returnLeakOutside_m3s;
      const total = supplyLeak25_m3s + returnLeak25_m3s;
      const places = [
        ['total', 'supply', supplyLeak25_m3s],
        ['total', 'return', returnLeak25_m3s],
        ['total', 'both', total],
        ['outdoors', 'both', operating > 0 ? total * Math.min(1, outside / operating) : 0],
      ] as const;
      return places.map(([place, side, flow25_m3s]) => ({
        ...test,
        id: `expected-${system}-${place}-${side}`,
        place,
        side,
        flow25_m3s: Math.max(0, flow25_m3s),
      }));
    },
  ),
});
