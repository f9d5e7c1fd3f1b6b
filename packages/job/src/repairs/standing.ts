import { type Account, checkRules, type Season, type Survey } from '@airledger/engine';
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

/** How a house stands by its accounts, and by a year when there is one. */
export const standingOf = (accounts: BothAccounts, year: Season | undefined): Standing => {
  const { survey } = accounts.heating;
  const used = (['heating', 'cooling'] as const).filter((mode) =>
    survey.systems.some(({ equipment }) => equipment[mode]),
  );
  return {
    drift_K: Object.fromEntries(used.map((mode) => [mode, driftOf(accounts[mode])])),
    leakShare: survey.systems.map((_, s) => {
      const worst = (leak: 'supplyLeak_m3s' | 'returnLeak_m3s'): number =>
        Math.max(
          ...used.map((mode) => {
            const system = accounts[mode].systems[s]!;
            return system.fanFlow_m3s > 0 ? system[leak] / system.fanFlow_m3s : 0;
          }),
        );
      return [worst('supplyLeak_m3s'), worst('returnLeak_m3s')];
    }),
    failed: failedOf(survey, accounts),
    ...(year && { year: yearOf(survey, year) }),
  };
};

/** Rooms that no duct blows into are nobody's fault. */
const driftOf = ({ rooms }: Account): number[] =>
  rooms.map(({ predicted_C, setPoint_C, needed_m3s }) => (needed_m3s > 0 ? predicted_C - setPoint_C : 0));

const yearOf = (survey: Survey, { cost, emission_kg, rooms, byFuel }: Season): Standing['year'] => {
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
const failedOf = (survey: Survey, accounts: BothAccounts): Standing['failed'] => {
  const checks = checkRules(withExpectedTests(survey, accounts), accounts);
  const sum = (group: 'code' | 'specification'): number =>
    checks
      .filter((check) => check.group === group && check.result === 'fail')
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

/** A standing as the numbers that a planner works with, and back. */
export const standingCodec = (like: Standing) => {
  const modes = Object.keys(like.drift_K) as ('heating' | 'cooling')[];
  const rooms = Object.values(like.drift_K)[0]?.length ?? 0;
  const encode = ({ drift_K, leakShare, failed, year }: Standing): number[] => [
    ...modes.flatMap((mode) => drift_K[mode]!),
    ...leakShare.flat(),
    failed.code,
    failed.specification,
    ...(year
      ? [
          year.cost,
          year.emission_kg,
          year.discomfort_Kh,
          ...year.fuels.flatMap(({ cost, energy_J }) => [cost, energy_J]),
        ]
      : []),
  ];
  const decode = (figures: readonly number[]): Standing => {
    let at = 0;
    const next = (): number => figures[at++]!;
    const drift_K = Object.fromEntries(modes.map((mode) => [mode, Array.from({ length: rooms }, next)]));
    const leakShare = like.leakShare.map(() => [next(), next()] as const);
    const failed = { code: next(), specification: next() };
    if (!like.year) return { drift_K, leakShare, failed };
    const [cost, emission_kg, discomfort_Kh] = [next(), next(), next()];
    const fuels = like.year.fuels.map(({ fuel }) => ({ fuel, cost: next(), energy_J: next() }));
    return { drift_K, leakShare, failed, year: { cost, emission_kg, discomfort_Kh, fuels } };
  };
  return { encode, decode };
};
