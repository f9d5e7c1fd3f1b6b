import { ninetiethPercentile } from '../numerics/normal-share.ts';
import type { AirSystem, DuctPart, Fact, HowKnown, Leak, LeakPlace, Survey } from '../survey/types.ts';
import { placePriors } from './place-priors.ts';
import type { PlaceKind } from './types.ts';

export type LeakKind = Exclude<PlaceKind, 'share' | 'house' | 'damper' | 'slack' | 'register'>;

/** A place of one system that may leak. */
export type LeakSpot = {
  readonly id: string;
  readonly kind: LeakKind;
  /** Duct part, or undefined for the cabinet. */
  readonly part?: string;
  readonly side: 'supply' | 'return';
  readonly at: Leak['at'];
  /** Run with a register that it belongs to. */
  readonly run?: string;
  /** Where its outer share goes, and its inner one; the same when the duct lies inside. */
  readonly outside: string;
  readonly inside: string;
  /** ln of the flow at 25 Pa, m³/s, with its spread, before any reading. */
  readonly mean: number;
  readonly sd: number;
};

/** Flow at 25 Pa and outdoor share of every spot, by id. */
export type LeakSizes = ReadonlyMap<string, { readonly flow25_m3s: number; readonly share: number }>;

/** Usual exponent of duct leaks (ASHRAE Standard 152 and ASTM E1554 practice, from memory). */
const exponent = 0.6;

/** Every place of a system that may leak: what the survey says of it makes its prior, else the table of places. */
export function leakSpots(survey: Survey, system: AirSystem): LeakSpot[] {
  const rooms = new Set(survey.rooms.map(({ id }) => id));
  const isInside = (zone: string) =>
    rooms.has(zone) || (survey.zones.find(({ id }) => id === zone)?.insideEnvelope ?? false);
  const spot = (
    id: string,
    kind: LeakKind,
    part: DuctPart | undefined,
    at: Leak['at'],
    leaks: readonly { readonly leak: Leak; readonly fact: Fact | undefined }[],
  ): LeakSpot => {
    const zone = part?.zone ?? system.airHandler.zone;
    const inner = part?.terminal?.room ?? system.thermostatRoom;
    return {
      id,
      kind,
      ...(part ? { part: part.id } : {}),
      side: part?.side ?? 'return',
      at,
      ...(part?.terminal && part.side === 'supply' ? { run: part.id } : {}),
      outside: zone,
      inside: isInside(zone) ? zone : inner,
      ...leakPrior(kind, leaks),
    };
  };
  const spots = system.parts
    .filter((part) => part.role !== 'bypass')
    .flatMap((part) => {
      const known = part.leaks.map((leak, i) => ({
        leak,
        fact: survey.facts[`systems/${system.id}/parts/${part.id}/leaks/${i}/flow`],
      }));
      const buckets = bucketsOf(part);
      return buckets.map(({ kind, at }) =>
        spot(
          `${part.id}/${kind}`,
          kind,
          part,
          at,
          known.filter(({ leak }) => buckets.length === 1 || (leak.place === 'boot') === (at === 'end')),
        ),
      );
    });
  const cabinet = system.airHandler.leaks.map((leak, i) => ({
    leak,
    fact: survey.facts[`systems/${system.id}/airHandler/leaks/${i}/flow`],
  }));
  return [...spots, spot(`${system.id}/cabinet`, 'cabinet', undefined, 'start', cabinet)];
}

function bucketsOf(part: DuctPart): { kind: LeakKind; at: Leak['at'] }[] {
  const terminal = part.terminal !== undefined;
  if (part.side === 'return') {
    const joint = { kind: 'return joint', at: part.flexible || terminal ? 'start' : 'along' } as const;
    const boot = { kind: 'return boot', at: 'end' } as const;
    if (!terminal) return [joint];
    return part.joins === 'air-handler' ? [joint, boot] : [boot];
  }
  if (terminal)
    return [
      { kind: 'takeoff', at: 'start' },
      { kind: 'boot', at: 'end' },
    ];
  if (part.role === 'plenum' || (part.joins === 'air-handler' && part.role !== 'trunk'))
    return [{ kind: 'supply plenum', at: 'start' }];
  return [part.role === 'run' ? { kind: 'takeoff', at: 'start' } : { kind: 'trunk joint', at: 'along' }];
}

/** Least spread of what somebody wrote down without measuring it: a leak cannot be seen from below. Assumed. */
const leastSd: Readonly<Record<HowKnown, number>> = {
  measured: 0.25,
  'read off': 0.5,
  estimated: 0.6,
  assumed: 0.8,
};
/** Width of a 10–90 % range in standard deviations. */
const rangeWidth = 2 * ninetiethPercentile;

function leakPrior(
  kind: LeakKind,
  leaks: readonly { readonly leak: Leak; readonly fact: Fact | undefined }[],
): { mean: number; sd: number } {
  const prior = placePriors[kind];
  const flow25_m3s = leaks.reduce((sum, { leak }) => sum + leak.flow25_m3s, 0);
  const fact = leaks.toSorted((a, b) => b.leak.flow25_m3s - a.leak.flow25_m3s)[0]?.fact;
  if (!(flow25_m3s > 0) || !fact || fact.defaulted || fact.howKnown === 'assumed')
    return { mean: Math.log(prior.median), sd: prior.logSd };
  const { low, high } = fact;
  const typed = low && high && low > 0 ? Math.log(high / low) / rangeWidth : 0;
  return { mean: Math.log(flow25_m3s), sd: Math.max(typed, leastSd[fact.howKnown]) };
}

/** The places as the survey's own names have them. */
const surveyPlace: Readonly<Record<LeakKind, LeakPlace>> = {
  boot: 'boot',
  takeoff: 'takeoff',
  'trunk joint': 'seam',
  'supply plenum': 'plenum',
  cabinet: 'cabinet',
  'return joint': 'joint',
  'return boot': 'boot',
};

/** The survey with the leaks of one system replaced by those of the spots: each an outer and an inner leak. */
export function withLeaks(
  survey: Survey,
  systemId: string,
  spots: readonly LeakSpot[],
  sizes: LeakSizes,
): Survey {
  const leaksOf = (part: string | undefined): Leak[] =>
    spots.filter((spot) => spot.part === part).flatMap((spot) => leaksAt(spot, sizes.get(spot.id)!));
  return {
    ...survey,
    systems: survey.systems.map((system) =>
      system.id === systemId
        ? {
            ...system,
            spreadLeakage: [],
            airHandler: { ...system.airHandler, leaks: leaksOf(undefined) },
            parts: system.parts.map((part) => ({ ...part, leaks: leaksOf(part.id) })),
          }
        : system,
    ),
  };
}

function leaksAt(spot: LeakSpot, size: { flow25_m3s: number; share: number }): Leak[] {
  const leak = (goes: 'outside' | 'inside', flow25_m3s: number): Leak => ({
    id: leakId(spot, goes),
    place: surveyPlace[spot.kind],
    at: spot.at,
    zone: spot[goes],
    flow25_m3s,
    exponent,
  });
  if (spot.outside === spot.inside) return [leak('outside', size.flow25_m3s)];
  return [leak('outside', size.flow25_m3s * size.share), leak('inside', size.flow25_m3s * (1 - size.share))];
}

export const leakId = (spot: LeakSpot, goes: 'outside' | 'inside'): string => `${spot.id}/${goes}`;
