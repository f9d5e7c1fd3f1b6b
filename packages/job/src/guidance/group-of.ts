import type { DuctPart, Survey } from '@airledger/engine';
import { inputAt, type Thing, things } from './uncertainty.ts';

/** One thing to measure, as it stands in this house. */
export type Group = {
  readonly id: string;
  readonly words: string;
  readonly how: string;
  readonly minutes: number;
  readonly source: string;
};

/** Supply parts all of whose air is meant for one room, by path. */
const ownParts = (survey: Survey, room: string | undefined): ReadonlySet<string> => {
  const own = new Set<string>();
  for (const { id, parts } of survey.systems) {
    const serves = new Map<string, Set<string>>();
    for (const part of parts) {
      if (part.side !== 'supply' || !part.terminal) continue;
      const way = new Set<string>();
      for (let at: DuctPart | undefined = part; at && !way.has(at.id); ) {
        way.add(at.id);
        serves.set(at.id, (serves.get(at.id) ?? new Set()).add(part.terminal.room));
        const { joins }: DuctPart = at;
        at = parts.find((one) => one.id === joins);
      }
    }
    for (const [part, rooms] of serves)
      if (rooms.size === 1 && room !== undefined && rooms.has(room)) own.add(`systems/${id}/parts/${part}`);
  }
  return own;
};

const partPath = /^systems\/[^/]+\/parts\/[^/]+/;

/** Groups the paths of a house by what one would go and measure: the way to the worst room apart from all others. */
export const grouping = (
  survey: Survey,
  worst: string | undefined,
): ((path: string) => Group | undefined) => {
  const own = ownParts(survey, worst);
  const parts = new Map<string, DuctPart>(
    survey.systems.flatMap((system) =>
      system.parts.map((part) => [`systems/${system.id}/parts/${part.id}`, part] as const),
    ),
  );
  const several = survey.systems.length > 1;
  const nameOf = (id: string): string =>
    [...parts.values(), ...survey.rooms, ...survey.systems].find((each) => each.id === id)?.name ?? id;

  const sideOf = (path: string, part: DuctPart | undefined, system: string): string => {
    const tested = survey.systems.find(({ id }) => id === system)?.spreadLeakage;
    const index = /\/leakage\/([^/]+)/.exec(path)?.[1];
    if (index === 'supply' || index === 'return') return index;
    return part?.side ?? (index === undefined ? 'return' : (tested?.[Number(index)]?.side ?? 'supply'));
  };

  const filled = (text: string, words: Readonly<Record<string, string>>): string =>
    text.replace(/\{(\w+)\}/g, (_, key: string) => words[key] ?? key);

  const named = (thing: Thing, path: string): Group => {
    const at = partPath.exec(path)?.[0];
    const part = at === undefined ? undefined : parts.get(at);
    const system = /^systems\/([^/]+)/.exec(path)?.[1];
    const whose = several && system !== undefined ? `${system}/` : '';
    const behind = several && system !== undefined ? ` (${nameOf(system)})` : '';
    const mine = part && at !== undefined && own.has(at) ? part.id : /^rooms\/([^/]+)/.exec(path)?.[1];
    if (mine !== undefined && (mine === part?.id || mine === worst) && thing.ownWords !== undefined)
      return {
        id: `${thing.id}/${part ? at : `rooms/${mine}`}`,
        words: filled(thing.ownWords, { own: nameOf(mine) }),
        how: thing.ownHow!,
        minutes: thing.ownMinutes!,
        source: thing.source,
      };
    const side = thing.scope === 'side' ? sideOf(path, part, system ?? '') : undefined;
    return {
      // Leaks that were looked at and those of a test are measured by the same test.
      id: `${whose}${thing.id.replace('-side', '')}${side === undefined ? '' : `/${side}`}`,
      words: `${filled(thing.words, side === undefined ? {} : { side })}${behind}`,
      how: filled(thing.how, side === undefined ? {} : { side }),
      minutes: thing.minutes,
      source: thing.source,
    };
  };

  return (path) => {
    const row = inputAt(path);
    return row && named(things.get(row.thing)!, path);
  };
};
