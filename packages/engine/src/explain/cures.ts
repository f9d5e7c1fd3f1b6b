import type { DuctPart, Leak, PressureDrop, Survey } from '../survey/types.ts';
import type { RoomGroup } from './types.ts';

/** One thing that can be wrong on the way to a room, and the survey with it put right. */
export type Cure = { readonly id: string; readonly what: string; readonly apply: (survey: Survey) => Survey };

/** Flex pulled straight keeps about this much slack (ASHRAE Handbook—Fundamentals 2021 ch. 21 tests 4 % as the least). */
export const straightSlack = 0.04;
/** A clean filter of ample size, Pa (0.10 in.wc; common practice, no source). */
export const cleanFilter_Pa = 25;

/**
 * The cures that would change something for this room. Sizes, lengths and the fan are not cured: they are the layout.
 */
export function curesFor(survey: Survey, room: string): Cure[] {
  const own = partsOnlyFor(survey, [room]);
  const isOwn = (part: DuctPart) => own.has(part.id);
  const isShared = (part: DuctPart) => part.side === 'supply' && !isOwn(part) && !part.terminal;
  const cures: Cure[] = [
    sealing(
      'own-joints',
      'leaks at takeoff and joints of its run',
      (part, leak) => isOwn(part) && leak.place !== 'boot',
    ),
    sealing('own-boots', 'leaks at its boot', (part, leak) => isOwn(part) && leak.place === 'boot'),
    sealing('trunk-leaks', 'leaks of plenum and trunk', (part) => isShared(part)),
    sealing(
      'other-runs',
      'leaks of other runs',
      (part) => part.side === 'supply' && !isOwn(part) && !isShared(part),
    ),
    sealingReturn,
    eachPart('slack', 'slack in its flex', (part) => (isOwn(part) ? straightened(part) : part)),
    eachPart('throttled', 'damper or register partly shut', (part) => (isOwn(part) ? opened(part) : part)),
    cleaningFilter,
    openingDoors(room),
  ];
  return cures.filter((cure) => cure.apply(survey) !== survey);
}

/** What the ids of causes on the way to some rooms end with; names do not do, for two rooms may have the same. */
export const wayTo = (rooms: readonly string[]): string => rooms.join('+');

/**
 * The cures that would change something between two groups of rooms, at most eight: for each its leaks, and what
 * restricts its runs; then what both share.
 */
export function curesBetween(survey: Survey, one: RoomGroup, other: RoomGroup): Cure[] {
  const own = [one, other].map((group) => ({ group, parts: partsOnlyFor(survey, group.rooms) }));
  const isOwn = (part: DuctPart) => own.some(({ parts }) => parts.has(part.id));
  const isShared = (part: DuctPart) => part.side === 'supply' && !isOwn(part) && !part.terminal;
  const cures: Cure[] = [
    ...own.flatMap(({ group: { name, rooms }, parts }) => [
      sealing(`leaks-${wayTo(rooms)}`, `leaks on the way to ${name}`, (part) => parts.has(part.id)),
      eachPart(
        `restrictions-${wayTo(rooms)}`,
        `slack, dampers and registers on the way to ${name}`,
        (part) => (parts.has(part.id) ? opened(straightened(part)) : part),
      ),
    ]),
    sealing('trunk-leaks', 'leaks of plenum and trunk', isShared),
    sealing(
      'other-runs',
      'leaks of other runs',
      (part) => part.side === 'supply' && !isOwn(part) && !isShared(part),
    ),
    {
      id: 'return',
      what: 'leaks of return and cabinet, loaded filter',
      apply: (before) => cleaningFilter.apply(sealingReturn.apply(before)),
    },
    {
      id: 'return-path',
      what: 'pressure behind their shut doors',
      apply: (before) =>
        [...one.rooms, ...other.rooms].reduce((now, room) => openingDoors(room).apply(now), before),
    },
  ];
  return cures.filter((cure) => cure.apply(survey) !== survey);
}

const straightened = (part: DuctPart): DuctPart =>
  part.flexible && part.slack > straightSlack ? { ...part, slack: straightSlack } : part;

/** Supply parts all of whose air is meant for these rooms. */
export function partsOnlyFor(survey: Survey, rooms: readonly string[]): Set<string> {
  const own = new Set<string>();
  for (const { parts } of survey.systems) {
    const serves = new Map<string, Set<string>>();
    for (const part of parts) {
      if (part.side !== 'supply' || !part.terminal) continue;
      for (let at: DuctPart | undefined = part; at; at = parts.find((one) => one.id === at!.joins))
        serves.set(at.id, (serves.get(at.id) ?? new Set()).add(part.terminal.room));
    }
    for (const [id, served] of serves) if ([...served].every((room) => rooms.includes(room))) own.add(id);
  }
  return own;
}

/** Changes parts, and keeps the survey itself when no part changes. */
const eachPart = (id: string, what: string, change: (part: DuctPart) => DuctPart): Cure => ({
  id,
  what,
  apply: (survey) => {
    const systems = survey.systems.map((system) => {
      const parts = system.parts.map(change);
      return parts.some((part, index) => part !== system.parts[index]) ? { ...system, parts } : system;
    });
    return systems.some((system, index) => system !== survey.systems[index])
      ? { ...survey, systems }
      : survey;
  },
});

const tight = (leak: Leak): Leak => ({ ...leak, flow25_m3s: 0 });

const sealing = (id: string, what: string, which: (part: DuctPart, leak: Leak) => boolean): Cure =>
  eachPart(id, what, (part) =>
    part.leaks.some((leak) => leak.flow25_m3s > 0 && which(part, leak))
      ? { ...part, leaks: part.leaks.map((leak) => (which(part, leak) ? tight(leak) : leak)) }
      : part,
  );

const sealingReturn: Cure = {
  id: 'return-leaks',
  what: 'leaks of return and cabinet',
  apply: (survey) => {
    const ducts = sealing('', '', (part) => part.side === 'return').apply(survey);
    if (!ducts.systems.some((system) => system.airHandler.leaks.some((leak) => leak.flow25_m3s > 0)))
      return ducts;
    return {
      ...ducts,
      systems: ducts.systems.map((system) => ({
        ...system,
        airHandler: { ...system.airHandler, leaks: system.airHandler.leaks.map(tight) },
      })),
    };
  },
};

function opened(part: DuctPart): DuctPart {
  const damper = part.damper !== undefined && part.damper < 1;
  const louvre = part.terminal !== undefined && part.terminal.open < 1;
  if (!damper && !louvre) return part;
  return {
    ...part,
    ...(damper ? { damper: 1 } : {}),
    ...(louvre ? { terminal: { ...part.terminal!, open: 1 } } : {}),
  };
}

const loaded = (filter: PressureDrop | undefined): boolean =>
  filter !== undefined && filter.drop_Pa > cleanFilter_Pa;
const cleaned = (filter: PressureDrop): PressureDrop =>
  loaded(filter) ? { ...filter, drop_Pa: cleanFilter_Pa } : filter;

const cleaningFilter: Cure = {
  id: 'filter',
  what: 'loaded or small filter',
  apply: (survey) => {
    const atGrilles = eachPart('', '', (part) =>
      loaded(part.terminal?.filter)
        ? { ...part, terminal: { ...part.terminal!, filter: cleaned(part.terminal!.filter!) } }
        : part,
    ).apply(survey);
    if (!atGrilles.systems.some((system) => loaded(system.airHandler.filter))) return atGrilles;
    return {
      ...atGrilles,
      systems: atGrilles.systems.map((system) => ({
        ...system,
        airHandler: { ...system.airHandler, filter: cleaned(system.airHandler.filter) },
      })),
    };
  },
};

const openingDoors = (room: string): Cure => ({
  id: 'return-path',
  what: 'pressure behind its shut door',
  apply: (survey) => {
    const shut = survey.doors.some((door) => !door.open && door.between.includes(room));
    if (!shut) return survey;
    return {
      ...survey,
      doors: survey.doors.map((door) => (door.between.includes(room) ? { ...door, open: true } : door)),
    };
  },
});
