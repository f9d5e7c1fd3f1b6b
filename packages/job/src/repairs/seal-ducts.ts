import type { AirSystem, DuctPart, Leak, Survey } from '@airledger/engine';
import { siOf } from '../edit/typed-text.ts';
import type { Job } from '../schema/job-schema.ts';
import type { JobLeak } from '../schema/system-schema.ts';
import { leakOf } from '../survey/tables.ts';
import type { Proposal } from './candidate.ts';
import { type SealedTo, sealedFlows } from './catalogue.ts';
import { cubicFeetPerMinute, isHidden, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';

/** Less than this at 25 Pa is not worth a visit (assumed). */
const least_cfm = 4;
/** A leak of a joint this large is a hole or a duct come off (assumed). */
const hole_cfm = 25;
/** Share of a leak that injected sealant leaves, and the largest leak that it closes (from memory). */
const injected = { left: 0.12, most_cfm: 60 };
/** Share that crews left in the houses of the source in the catalogue. */
const leftBySide = 0.32;

type Which = (part: DuctPart | undefined, leak: Leak) => boolean;

/** Leaks as the job writes them, each one that `which` holds for sealed. */
const sealedLeaks = (
  leaks: readonly JobLeak[],
  isMeant: (place: string) => boolean,
  flowFor: (leak: JobLeak, now_cfm: number) => string | undefined,
): JobLeak[] =>
  leaks.map((leak) => {
    if (!isMeant(leak.place)) return leak;
    const now = siOf(leak.flow ?? leakOf(leak.place, leak.tightness ?? 'typical').flow, 'airflow')!;
    const flow = flowFor(leak, cubicFeetPerMinute(now));
    const after = flow === undefined ? now : siOf(flow, 'airflow')!;
    if (flow === undefined || after >= now) return leak;
    const { tightness: _, ...rest } = leak;
    return { ...rest, flow: { value: flow, known: 'estimated' as const, note: 'after sealing' } };
  });

/** Tests taken before the ducts were sealed say nothing of them any more. */
const withoutTests = (house: Job, system: string): Job => {
  const left = house.leakageTests?.filter((test) => test.system !== system);
  if (left?.length === house.leakageTests?.length) return house;
  return { ...house, leakageTests: left };
};

/** The house with leaks of some parts sealed by hand to what a way of sealing leaves. */
export const sealParts = (
  house: Job,
  system: string,
  parts: readonly string[],
  to: SealedTo,
  places: readonly string[] | undefined = undefined,
): Job =>
  withoutTests(
    withChangedParts(house, system, parts, (part) =>
      part.leaks
        ? {
            ...part,
            leaks: sealedLeaks(
              part.leaks,
              (place) => places?.includes(place) ?? true,
              (leak) => sealedFlows[to][leak.place],
            ),
          }
        : part,
    ),
    system,
  );

const sealCabinet = (house: Job, system: string, to: SealedTo): Job => ({
  ...house,
  systems: house.systems!.map((each) =>
    each.id === system && each.airHandler.leaks
      ? {
          ...each,
          airHandler: {
            ...each.airHandler,
            leaks: sealedLeaks(
              each.airHandler.leaks,
              () => true,
              (leak) => sealedFlows[to][leak.place],
            ),
          },
        }
      : each,
  ),
});

const gain_cfm = (leaks: readonly Leak[], to: SealedTo): number =>
  leaks.reduce(
    (sum, { place, flow25_m3s }) =>
      sum + Math.max(0, cubicFeetPerMinute(flow25_m3s - siOf(sealedFlows[to][place]!, 'airflow')!)),
    0,
  );

/** Joints behind a leak of a part: each section of a trunk ends in one. */
const jointsOf = (part: DuctPart, leak: Leak): number =>
  leak.place === 'seam' ? Math.max(2, Math.round(part.length_m / 1.5) + 1) : leak.place === 'plenum' ? 3 : 1;

const isBoot: Which = (_, { place }) => place === 'boot';

/** Sealing by hand, side by side, and the holes apart; boots by what they sit in; injected sealant for the whole. */
export const proposeSealing = (survey: Survey): readonly Proposal[] =>
  survey.systems.flatMap((system) => [
    ...holesOf(survey, system),
    ...(['supply', 'return'] as const).flatMap((side) => [
      ...jointsBySide(survey, system, side),
      ...spreadBySide(survey, system, side),
    ]),
    ...bootsOf(survey, system),
    ...injectedInto(survey, system),
  ]);

/** A joint gaping or a duct come off. */
const holesOf = (survey: Survey, system: AirSystem): Proposal[] =>
  system.parts.flatMap((part) => {
    if (isHidden(survey, part)) return [];
    const holes = part.leaks.filter(
      ({ place, flow25_m3s }) =>
        (place === 'takeoff' || place === 'joint' || place === 'boot') &&
        cubicFeetPerMinute(flow25_m3s) >= hole_cfm,
    );
    if (holes.length === 0) return [];
    const places = holes.map(({ place }) => place);
    const offFlex = part.flexible || part.role === 'run';
    return [
      {
        repair: offFlex ? 'reconnect' : 'close-hole',
        place: part.id,
        name: `${offFlex ? 'Reconnect' : 'Patch'} ${part.name}`,
        where: [partPath(system.id, part.id)],
        work: workAt(survey, [{ zone: part.zone, quantity: holes.length }]),
        claims: [],
        apply: (house: Job) => sealParts(house, system.id, [part.id], 'mastic', places),
      },
    ];
  });

const jointsBySide = (survey: Survey, system: AirSystem, side: 'supply' | 'return'): Proposal[] => {
  const parts = system.parts.filter((part) => part.side === side && !isHidden(survey, part));
  const isMeant = (leak: Leak): boolean => leak.place !== 'boot' || side === 'return';
  const leaks = [
    ...parts.flatMap((part) => part.leaks.filter(isMeant)),
    ...(side === 'return' ? system.airHandler.leaks : []),
  ].filter(({ flow25_m3s }) => cubicFeetPerMinute(flow25_m3s) < hole_cfm);
  if (gain_cfm(leaks, 'mastic') < least_cfm && gain_cfm(leaks, 'tested') < least_cfm) return [];
  const places = side === 'return' ? undefined : ['takeoff', 'joint', 'seam', 'plenum', 'cabinet'];
  const joints = parts.map((part) => ({
    zone: part.zone,
    quantity: part.leaks.filter(isMeant).reduce((sum, leak) => sum + jointsOf(part, leak), 0),
  }));
  const cabinet = { zone: system.airHandler.zone, quantity: 2 * system.airHandler.leaks.length };
  const ids = parts.map(({ id }) => id);
  const apply = (to: SealedTo) => (house: Job) => {
    const ducts = sealParts(house, system.id, ids, to, places);
    return side === 'return' ? sealCabinet(ducts, system.id, to) : ducts;
  };
  const what = side === 'return' ? 'return ducts and cabinet' : 'supply joints, takeoffs and plenum';
  const common = {
    place: `${system.id}-${side}`,
    where: ids.map((id) => partPath(system.id, id)),
    work: workAt(survey, side === 'return' ? [...joints, cabinet] : joints),
    claims: [`seal/${system.id}/${side}`],
  };
  return [
    {
      ...common,
      repair: 'seal-mastic',
      name: `Seal ${what} with mastic${ofSystem(survey, system)}`,
      apply: apply('mastic'),
    },
    {
      ...common,
      repair: 'seal-tested',
      name: `Seal ${what}, testing as the work goes${ofSystem(survey, system)}`,
      apply: apply('tested'),
    },
  ];
};

/** A side of which only a test is known, or nothing at all. */
const spreadBySide = (survey: Survey, system: AirSystem, side: 'supply' | 'return'): Proposal[] => {
  const flow_cfm = system.spreadLeakage
    .filter((test) => test.side === side)
    .reduce((sum, test) => sum + cubicFeetPerMinute(test.flow25_m3s), 0);
  if (flow_cfm * (1 - leftBySide) < least_cfm) return [];
  const parts = system.parts.filter((part) => part.side === side);
  const left = flow_cfm * leftBySide;
  const flow = `${left.toFixed(1)} cfm (${(0.5 * left).toFixed(1)} to ${(1.8 * left).toFixed(1)} cfm)`;
  return [
    {
      repair: 'seal-silent',
      place: `${system.id}-${side}`,
      name: `Seal the ${side} ducts with mastic${ofSystem(survey, system)}`,
      where: [`systems/${system.id}`],
      work: workAt(
        survey,
        parts.map(({ zone, terminal }) => ({ zone, quantity: terminal ? 2 : 4 })),
      ),
      claims: [`seal/${system.id}/${side}`],
      apply: (house: Job) =>
        withoutTests(
          {
            ...house,
            systems: house.systems!.map((each) =>
              each.id === system.id
                ? {
                    ...each,
                    leakage: [
                      ...(each.leakage ?? []).filter((row) => row.side !== side),
                      { side, flow: { value: flow, known: 'estimated' as const, note: 'after sealing' } },
                    ],
                  }
                : each,
            ),
          },
          system.id,
        ),
    },
  ];
};

/** A boot in an attic sits in a ceiling, over a crawlspace or basement in a floor, else in a wall. */
const surfaceOf = (survey: Survey, part: DuctPart): 'ceiling' | 'floor' | 'wall' => {
  const kind = survey.zones.find(({ id }) => id === part.zone)?.kind;
  if (kind === 'attic' || kind === 'garage') return kind === 'attic' ? 'ceiling' : 'floor';
  return kind === 'crawlspace' || kind === 'basement' ? 'floor' : 'wall';
};

const bootsOf = (survey: Survey, system: AirSystem): Proposal[] =>
  (['ceiling', 'floor', 'wall'] as const).flatMap((surface) => {
    const parts = system.parts.filter(
      (part) =>
        part.side === 'supply' &&
        surfaceOf(survey, part) === surface &&
        part.leaks.some((leak) => isBoot(part, leak)),
    );
    const boots = parts.flatMap((part) => part.leaks.filter((leak) => isBoot(part, leak)));
    if (gain_cfm(boots, 'mastic') < least_cfm) return [];
    const ids = parts.map(({ id }) => id);
    return [
      {
        repair: `seal-boots-${surface}`,
        place: system.id,
        name: `Seal boots to the ${surface}${ofSystem(survey, system)}`,
        where: ids.map((id) => partPath(system.id, id)),
        work: [{ access: 'open' as const, quantity: boots.length }],
        claims: [`boots/${system.id}/${surface}`],
        apply: (house: Job) => sealParts(house, system.id, ids, 'mastic', ['boot']),
      },
    ];
  });

/** Sealant in the air finds every leak of the ducts but large holes and the cabinet. */
const injectedInto = (survey: Survey, system: AirSystem): Proposal[] => {
  const leaks = system.parts
    .flatMap((part) => part.leaks)
    .filter(({ flow25_m3s }) => cubicFeetPerMinute(flow25_m3s) <= injected.most_cfm);
  const all_cfm =
    leaks.reduce((sum, leak) => sum + cubicFeetPerMinute(leak.flow25_m3s), 0) +
    system.spreadLeakage.reduce((sum, test) => sum + cubicFeetPerMinute(test.flow25_m3s), 0);
  if (all_cfm < 40) return [];
  const leftOf = (now_cfm: number): string =>
    `${(injected.left * now_cfm).toFixed(2)} cfm (${(0.5 * injected.left * now_cfm).toFixed(2)} to ${(2.5 * injected.left * now_cfm).toFixed(2)} cfm)`;
  return [
    {
      repair: 'seal-inside',
      place: system.id,
      name: `Seal the ducts from the inside with injected sealant${ofSystem(survey, system)}`,
      where: [`systems/${system.id}`],
      work: [{ access: 'open' as const, quantity: 1 }],
      claims: [
        `seal/${system.id}/supply`,
        `seal/${system.id}/return`,
        ...['ceiling', 'floor', 'wall'].map((surface) => `boots/${system.id}/${surface}`),
      ],
      apply: (house: Job) =>
        withoutTests(
          {
            ...house,
            systems: house.systems!.map((each) =>
              each.id === system.id
                ? {
                    ...each,
                    parts: each.parts.map((part) =>
                      part.leaks
                        ? {
                            ...part,
                            leaks: sealedLeaks(
                              part.leaks,
                              () => true,
                              (_, now_cfm) => (now_cfm <= injected.most_cfm ? leftOf(now_cfm) : undefined),
                            ),
                          }
                        : part,
                    ),
                    ...(system.spreadLeakage.length > 0 && {
                      leakage: system.spreadLeakage.map(({ side, flow25_m3s }) => ({
                        side,
                        flow: {
                          value: leftOf(cubicFeetPerMinute(flow25_m3s)),
                          known: 'estimated' as const,
                          note: 'after sealing',
                        },
                      })),
                    }),
                  }
                : each,
            ),
          },
          system.id,
        ),
    },
  ];
};
