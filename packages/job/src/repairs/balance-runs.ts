import type { Account, AirSystem, DuctPart, Survey } from '@airledger/engine';
import { airTemperatures } from '@airledger/engine/account/air-temperatures';
import { solveAir } from '@airledger/engine/air/solve-air';
import { damperCoefficient, damperOpening } from '@airledger/engine/ducts/fitting-loss';
import { sectionGeometry } from '@airledger/engine/ducts/section-geometry';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Proposal } from './candidate.ts';
import { isHidden, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';

/** Blades that are shut further whistle (common practice, no source). */
const least = 0.3;
/** A blade this far open is left out. */
const nearlyOpen = 0.97;
/** Rounds of throttling; each is one solve of the air. */
const rounds = 5;

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
 * Blade positions that bring the runs of a system to equal shares of what their rooms want, those that are short left
 * open. Each round throttles every run that gets more than the mean share by the loss it lacks at its own flow.
 */
const openingsFor = (
  survey: Survey,
  { mode, loads, survey: before }: Account,
  systemId: string,
  shares: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> => {
  const at = survey.systems.findIndex(({ id }) => id === systemId);
  const system = survey.systems[at]!;
  const conditions = airTemperatures(before, mode, loads);
  const runs = system.parts.flatMap((run) => {
    const part =
      run.side === 'supply' && run.terminal && shares.get(run.terminal.room)
        ? damperPart(survey, system, run)
        : undefined;
    return part ? [{ run, part }] : [];
  });
  const openings = new Map<string, number>(runs.map(({ part }) => [part.id, 1]));
  for (let round = 0; round < rounds; round++) {
    const set = withOpenings(survey, at, openings);
    const air = solveAir(set, mode, conditions);
    const flows = new Map<string, { flow_m3s: number; drop_Pa: number }>();
    for (const { run, part } of runs) {
      const end = air.elements.findIndex((one) => one.kind === 'terminal' && one.of === run.id);
      const start = air.elements.findIndex((one) => one.kind === 'duct' && one.of === part.id);
      const pressure = air.solution.pressure_Pa;
      flows.set(run.id, {
        flow_m3s: air.solution.flow_m3s[end]!,
        drop_Pa: pressure[air.elements[start]!.from]! - pressure[air.elements[end]!.to]!,
      });
    }
    const ofRoom = (room: string): number =>
      runs.reduce(
        (sum, { run }) => (run.terminal!.room === room ? sum + flows.get(run.id)!.flow_m3s : sum),
        0,
      );
    const rooms = [...new Set(runs.map(({ run }) => run.terminal!.room))];
    const mean =
      rooms.reduce((sum, room) => sum + ofRoom(room), 0) /
      rooms.reduce((sum, room) => sum + shares.get(room)!, 0);
    for (const { run, part } of runs) {
      const { flow_m3s, drop_Pa } = flows.get(run.id)!;
      const share = ofRoom(run.terminal!.room) / shares.get(run.terminal!.room)! / mean;
      if (!(flow_m3s > 0 && drop_Pa > 0)) continue;
      const dynamic_Pa =
        (air.referenceDensity_kgm3 / 2) * (flow_m3s / sectionGeometry(part.section).area_m2) ** 2;
      const now = damperCoefficient(openings.get(part.id)!);
      const wanted = now + (drop_Pa / dynamic_Pa) * (share ** 2 - 1);
      openings.set(part.id, Math.max(least, damperOpening(Math.max(wanted, 0))));
    }
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
