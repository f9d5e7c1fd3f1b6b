import type { Account, AirSystem, DuctPart, Survey } from '@airledger/engine';
import { runsOf } from '@airledger/engine/balance/damper-runs';
import { equalShares } from '@airledger/engine/balance/equal-shares';
import { damperOpening } from '@airledger/engine/ducts/fitting-loss';
import { compileNetwork, solveNetwork } from '@airledger/engine/network/index';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Proposal } from './candidate.ts';
import { isHidden, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';

/** Blades that are shut further whistle (common practice, no source). */
const least = 0.3;
/** A blade this far open is left out. */
const nearlyOpen = 0.97;

/** Dampers and louvres that are shut though their room is short; and dampers set so that rooms get equal shares. */
export const proposeBalancing = (survey: Survey, accounts: readonly Account[]): readonly Proposal[] =>
  survey.systems.flatMap((system) => [
    ...opening(survey, system, accounts),
    ...equalizing(survey, system, accounts),
  ]);

const opening = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] => {
  const isShort = (room: string): boolean =>
    accounts.some(({ rooms }) =>
      rooms.some((one) => one.room === room && one.delivered_m3s < one.needed_m3s),
    );
  const shut = system.parts.filter(
    (part) =>
      ((part.damper ?? 1) < nearlyOpen || (part.terminal?.open ?? 1) < nearlyOpen) &&
      (part.terminal === undefined || isShort(part.terminal.room)),
  );
  if (shut.length === 0) return [];
  const ids = shut.map(({ id }) => id);
  return [
    {
      repair: 'open-louvres',
      place: system.id,
      name: `Open registers and dampers of rooms that are short${ofSystem(survey, system)}`,
      where: ids.map((id) => partPath(system.id, id)),
      work: workAt(
        survey,
        shut.map(({ zone }) => ({ zone, quantity: 1 })),
      ),
      claims: [],
      apply: (house: Job) =>
        withChangedParts(house, system.id, ids, ({ damper, ...part }) => {
          const { open: _, ...terminal } = part.terminal ?? {};
          return {
            ...part,
            ...(damper !== undefined && { damper: '100 %' }),
            ...(part.terminal && { terminal: terminal as typeof part.terminal }),
          };
        }),
    },
  ];
};

/** Air that each room needs, as a share of the house's, mean of the seasons. */
const wantedShares = (accounts: readonly Account[]): ReadonlyMap<string, number> => {
  const shares = new Map<string, number>();
  for (const { rooms, house } of accounts)
    for (const { room, needed_m3s } of rooms)
      shares.set(room, (shares.get(room) ?? 0) + needed_m3s / house.needed_m3s / accounts.length);
  return shares;
};

/** The part nearest to a register that can be reached and carries the air of no other register. */
const damperPart = (survey: Survey, { parts }: AirSystem, run: DuctPart): DuctPart | undefined => {
  let part: DuctPart | undefined = run;
  while (part && isHidden(survey, part)) {
    const below = parts.find(({ id }) => id === part!.joins);
    const alone = parts.filter(({ joins }) => joins === below?.id).length === 1;
    part = below && alone && below.role === 'run' ? below : undefined;
  }
  return part;
};

const equalizing = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] => {
  const shares = wantedShares(accounts);
  const places = openingsFor(survey, accounts[0]!, system.id, shares);
  const throttled = [...places].filter(([, open]) => open < nearlyOpen).map(([id]) => id);
  const runs = system.parts.filter((part) => part.side === 'supply' && part.terminal);
  if (throttled.length === 0 || runs.length < 2) return [];
  return [
    {
      repair: 'balance-runs',
      place: system.id,
      name: `Fit dampers and balance the runs${ofSystem(survey, system)}`,
      where: throttled.map((id) => partPath(system.id, id)),
      work: workAt(
        survey,
        throttled.map((id) => ({ zone: system.parts.find((part) => part.id === id)!.zone, quantity: 1 })),
      ),
      claims: [`balance/${system.id}`],
      apply: (house: Job) => {
        const openings = openingsFor(surveyOf(house), accounts[0]!, system.id, shares);
        return withChangedParts(house, system.id, [...openings.keys()], (part) => {
          const open = openings.get(part.id)!;
          return open < nearlyOpen || part.damper !== undefined
            ? { ...part, damper: `${Math.round(100 * open)} %` }
            : part;
        });
      },
    },
  ];
};

/**
 * Blade positions that give every room the same share of the air that it wants, with the least throttling; all open
 * where that cannot be had.
 */
const openingsFor = (
  survey: Survey,
  near: Account,
  systemId: string,
  shares: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> => {
  const at = survey.systems.findIndex(({ id }) => id === systemId);
  const system = survey.systems[at]!;
  const parts = system.parts.flatMap((run) => {
    const wanted = run.side === 'supply' && run.terminal && shares.get(run.terminal.room);
    return wanted ? (damperPart(survey, system, run) ?? []) : [];
  });
  const openings = new Map<string, number>(parts.map(({ id }) => [id, 1]));
  const { network, runs } = runsOf({ ...near, survey: withOpenings(survey, at, openings) });
  const flow = solveNetwork(compileNetwork(network.network)).flow_m3s;
  const ofRoom = (room: string): number =>
    runs.reduce((sum, run) => (run.room === room ? sum + Math.max(0, flow[run.element]!) : sum), 0);
  const total = runs.reduce((sum, { element }) => sum + flow[element]!, 0);
  const targets = runs.map(
    ({ room, element }) => ((shares.get(room) ?? 0) * total * flow[element]!) / ofRoom(room),
  );
  const set = runs.map((run, i) => (targets[i]! > 0 ? run : { ...run, damper: undefined }));
  try {
    const { coefficient } = equalShares(network, set as typeof runs, targets);
    set.forEach(({ damper }, i) => {
      if (damper) openings.set(damper.part, Math.max(least, damperOpening(coefficient[i]!)));
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
  }
  return openings;
};

const withOpenings = (survey: Survey, at: number, openings: ReadonlyMap<string, number>): Survey => ({
  ...survey,
  systems: survey.systems.with(at, {
    ...survey.systems[at]!,
    parts: survey.systems[at]!.parts.map((part) => {
      const open = openings.get(part.id);
      return open === undefined ? part : { ...part, damper: open };
    }),
  }),
});
