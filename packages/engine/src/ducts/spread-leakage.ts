import type { AirSystem, DuctPart, Leak } from '../survey/types.ts';
import { sectionGeometry } from './section-geometry.ts';

/**
 * Leakage of a metre of joint (takeoff collar, boot, plenum connection) against a square metre of wall. Most leakage
 * sits at register, plenum and branch joints (Walker et al., LBNL-45423, which gives no shares); with 5 m a run of
 * metal duct leaks somewhat more at its two ends than along it (common practice, no source).
 */
const jointWeight_m = 5;

type Place = Pick<Leak, 'place' | 'at'> & { readonly weight_m2: number };

/**
 * Leaks that a whole-system test implies for the parts of a system that state none of their own, by part id.
 * Each test is shared out in proportion to wall surface and joint length: both ends of every part, and the wall of
 * rigid ones (the inner core of flex is a film that leaks at its collars only). If every part of a side states its
 * leaks, the test is shared over all of them.
 */
export function spreadLeakage(system: AirSystem): ReadonlyMap<string, readonly Leak[]> {
  const spread = new Map<string, Leak[]>();
  for (const test of system.spreadLeakage) {
    const side = system.parts.filter((part) => part.side === test.side);
    const silent = side.filter((part) => part.leaks.length === 0);
    const places = (silent.length > 0 ? silent : side).flatMap((part) =>
      leakyPlaces(part).map((place) => ({ part, place })),
    );
    const total_m2 = places.reduce((sum, { place }) => sum + place.weight_m2, 0);
    for (const { part, place } of places) {
      const leaks = spread.get(part.id) ?? [];
      leaks.push({
        id: `${part.id}/spread-${place.at}`,
        place: place.place,
        at: place.at,
        zone: part.zone,
        flow25_m3s: (test.flow25_m3s * place.weight_m2) / total_m2,
        exponent: test.exponent,
      });
      spread.set(part.id, leaks);
    }
  }
  return spread;
}

function leakyPlaces(part: DuctPart): Place[] {
  const { perimeter_m } = sectionGeometry(part.section);
  const joint_m2 = perimeter_m * jointWeight_m;
  const isPlenum = part.role === 'plenum' || part.joins === 'air-handler';
  const places: Place[] = [{ place: isPlenum ? 'plenum' : 'takeoff', at: 'start', weight_m2: joint_m2 }];
  if (!part.flexible) places.push({ place: 'seam', at: 'along', weight_m2: perimeter_m * part.length_m });
  if (part.terminal) places.push({ place: 'boot', at: 'end', weight_m2: joint_m2 });
  return places;
}
