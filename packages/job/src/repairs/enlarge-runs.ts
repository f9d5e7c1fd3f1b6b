import type { Account, AirSystem, DuctPart, Survey } from '@airledger/engine';
import { uniqueId } from '../edit/index.ts';
import type { Job, JobPart } from '../schema/job-schema.ts';
import { fittings as fittingRows, named } from '../survey/tables.ts';
import type { Proposal } from './candidate.ts';
import { feet, isHidden, partPath, withChangedParts, workAt } from './house-parts.ts';
import { isShort, renewed } from './rework-flex.ts';

/** Round sizes that are sold, in; two sizes up at most (common practice, no source). */
const sizes_in = [4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20];
const largest_in = 20;
/** A room that gets less than this of its need may want a second run (assumed). */
const farShort = 0.75;

/** A better piece for each that costs more pressure than it must. */
const better: Readonly<Record<string, { readonly repair: string; readonly name: string }>> = {
  'plain takeoff 90°': { repair: 'better-takeoff', name: '45° entry takeoff' },
  'round takeoff from plenum side or top': { repair: 'better-takeoff', name: '45° entry takeoff' },
  'boot, end': { repair: 'better-boot', name: 'boot, straight' },
  'boot, stack head or register boot': { repair: 'better-boot', name: 'boot, straight' },
  'elbow 90° flex, kinked': { repair: 'smooth-elbow', name: 'elbow 90° flex, smooth, r/D 1 to 1.5' },
  'elbow 90° square, no vanes': { repair: 'smooth-elbow', name: 'elbow 90° square, vanes' },
};

/** Next sizes of runs to rooms that are short of air, a second run beside them, and fittings of better shape. */
export const proposeEnlarging = (survey: Survey, accounts: readonly Account[]): readonly Proposal[] =>
  survey.systems.flatMap((system) => {
    const short = system.parts.filter(
      (part) => part.side === 'supply' && part.terminal && !isHidden(survey, part) && isShort(accounts, part),
    );
    return [
      ...short.flatMap((part) => resizing(survey, system, part)),
      ...short
        .filter((part) => isShort(accounts, part, farShort))
        .flatMap((part) => adding(survey, system, part)),
      ...shapes(survey, system, accounts),
    ];
  });

/** The next size of a run that can be had. */
export const resizing = (survey: Survey, system: AirSystem, part: DuctPart): Proposal[] => {
  if (part.section.shape !== 'round') return [];
  const now_in = part.section.diameter_m / 0.0254;
  const next_in = sizes_in.find((size) => size > now_in + 0.3);
  const above = system.parts.find(({ id }) => id === part.joins);
  // A run can be no wider than the one it hangs on.
  const most_in = above?.section.shape === 'round' ? above.section.diameter_m / 0.0254 : largest_in;
  if (next_in === undefined || next_in > most_in + 0.1) return [];
  return [
    {
      repair: 'resize-run',
      place: part.id,
      name: `Replace ${part.name} with a ${next_in} in run`,
      where: [partPath(system.id, part.id)],
      work: workAt(survey, [{ zone: part.zone, quantity: feet(part.length_m) }]),
      claims: [`run/${system.id}/${part.id}`],
      apply: (house) => renewed(house, system.id, part.id, (run) => ({ ...run, section: `${next_in} in` })),
    },
  ];
};

/** A second run to the same room, as the first was meant to be. */
const adding = (survey: Survey, system: AirSystem, part: DuctPart): Proposal[] => {
  if (!part.flexible && part.section.shape !== 'round') return [];
  return [
    {
      repair: 'add-run',
      place: part.id,
      name: `Add a second run beside ${part.name}`,
      where: [partPath(system.id, part.id)],
      work: workAt(survey, [{ zone: part.zone, quantity: feet(part.length_m) }]),
      claims: [],
      apply: (house) => {
        const first = house
          .systems!.find(({ id }) => id === system.id)
          ?.parts.find(({ id }) => id === part.id);
        if (!first?.terminal) return house;
        const id = uniqueId(house, `${part.id}-second`);
        const { leaks: _, damper: __, jacket: ___, roughness: ____, ...plain } = first;
        const second: JobPart = {
          ...plain,
          id,
          name: `${part.name}, second`,
          material: 'flex',
          slack: '4 % ± 1.5',
          insulation: 'R-8',
          fittings: ['45° entry takeoff', 'boot, straight'],
          leaks: [
            { place: 'takeoff', flow: '0.7 cfm (0.3 to 1.5 cfm)' },
            { place: 'boot', flow: '1 cfm (0.5 to 2 cfm)' },
          ],
          terminal: { ...first.terminal, id: uniqueId(house, `${first.terminal.id}-second`) },
        };
        return {
          ...house,
          systems: house.systems!.map((each) =>
            each.id === system.id ? { ...each, parts: [...each.parts, second] } : each,
          ),
        };
      },
    },
  ];
};

/** Pieces of poor shape on the way to rooms that are short, by the kind of work. */
const shapes = (survey: Survey, system: AirSystem, accounts: readonly Account[]): Proposal[] =>
  [...new Set(Object.values(better).map(({ repair }) => repair))].flatMap((repair) => {
    const poor = system.parts.filter(
      (part) =>
        part.side === 'supply' &&
        !isHidden(survey, part) &&
        feedsShort(system, part, accounts) &&
        part.fittings.some(({ name }) => better[name]?.repair === repair),
    );
    if (poor.length === 0) return [];
    const ids = poor.map(({ id }) => id);
    const names: Readonly<Record<string, string>> = {
      'better-takeoff': 'Change takeoffs of short runs for 45° entries',
      'better-boot': 'Change boots of short runs for straight ones',
      'smooth-elbow': 'Ease kinked and square elbows on the way to short rooms',
    };
    return [
      {
        repair,
        place: system.id,
        name: names[repair]!,
        where: ids.map((id) => partPath(system.id, id)),
        work: workAt(
          survey,
          poor.map((part) => ({
            zone: part.zone,
            quantity: part.fittings.reduce(
              (sum, { name, count }) => (better[name]?.repair === repair ? sum + count : sum),
              0,
            ),
          })),
        ),
        claims: [],
        apply: (house: Job) =>
          withChangedParts(house, system.id, ids, (part) => ({
            ...part,
            fittings: part.fittings?.map((fitting) => {
              const name = typeof fitting === 'string' ? fitting : fitting.name;
              const next = better[name];
              if (next?.repair !== repair) return fitting;
              const count = typeof fitting === 'string' ? 1 : (fitting.count ?? 1);
              return count === 1 ? next.name : { name: next.name, count };
            }),
          })),
      },
    ];
  });

/** Whether a part lies on the way to a room that is short. */
const feedsShort = (system: AirSystem, part: DuctPart, accounts: readonly Account[]): boolean =>
  (part.terminal !== undefined && isShort(accounts, part)) ||
  system.parts.some((other) => other.joins === part.id && feedsShort(system, other, accounts));

/** Whether the table of fittings has all the better pieces; a test holds the table to it. */
export const betterNames = (): readonly (string | undefined)[] =>
  Object.values(better).map(({ name }) => named(fittingRows, name)?.name);
