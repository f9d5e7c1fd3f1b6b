import type { AirSystem, DuctPart, Leak, Survey } from '@airledger/engine';
import { handleId } from './trials.ts';

/** One thing that can be tried: its words, its value now, and how far the handle goes. SI values. */
export type Handle = SliderHandle | SwitchHandle;

export type SliderHandle = {
  readonly id: string;
  readonly label: string;
  readonly measure: 'leakage at 25 Pa' | 'insulation' | 'share' | 'pressure';
  readonly value: number;
  readonly low: number;
  readonly high: number;
};

export type SwitchHandle = {
  readonly id: string;
  readonly label: string;
  readonly measure: 'open or shut';
  readonly value: boolean;
};

/** Handles that belong together: one run, or what all runs share. */
export type HandleGroup = { readonly id: string; readonly name: string; readonly handles: readonly Handle[] };

const leakWords: Record<Leak['place'], string> = {
  takeoff: 'Leak at takeoff',
  joint: 'Leak at joints',
  seam: 'Leak at seams',
  boot: 'Leak at boot',
  plenum: 'Leak at plenum',
  cabinet: 'Leak at cabinet',
};

/** A tight joint to a wide open one; a surveyed leak beyond that sets the end itself. */
const wideLeak_m3s = 0.04;
const bestInsulation_m2KW = 2.2;
const mostSlack = 0.4;

/** The runs that serve a room, then what is upstream of all of them, then its doors. */
export const handleGroups = (survey: Survey, room: string): HandleGroup[] => {
  const groups: HandleGroup[] = [];
  for (const system of survey.systems) {
    const runs = system.parts.filter((part) => part.terminal?.room === room);
    for (const run of runs) groups.push({ id: run.id, name: run.name, handles: partHandles(run) });
    if (runs.length > 0 || survey.systems.length === 1)
      groups.push({
        id: system.id,
        name: upstreamName(survey, system),
        handles: systemHandles(system, runs),
      });
  }
  const doors = doorHandles(survey, room);
  if (doors.length > 0) groups.push({ id: 'doors', name: 'Doors', handles: doors });
  return groups.filter((group) => group.handles.length > 0);
};

const upstreamName = (survey: Survey, system: AirSystem): string =>
  survey.systems.length > 1 ? `Upstream, ${system.name}` : 'Upstream';

/** The handles of one part of the ducts. */
export const partHandles = (part: DuctPart): Handle[] => {
  const share = (
    kind: 'slack' | 'damper' | 'register',
    label: string,
    value: number,
    high: number,
  ): Handle => ({
    id: handleId(kind, part.id),
    label,
    measure: 'share',
    value,
    low: 0,
    high,
  });
  return [
    ...part.leaks.map((leak) => leakHandle(part.id, leak, leakWords[leak.place])),
    {
      id: handleId('insulation', part.id),
      label: 'Insulation',
      measure: 'insulation',
      value: part.insulation_m2KW,
      low: 0,
      high: Math.max(bestInsulation_m2KW, part.insulation_m2KW),
    },
    ...(part.flexible ? [share('slack', 'Slack', part.slack, Math.max(mostSlack, part.slack))] : []),
    ...(part.damper === undefined ? [] : [share('damper', 'Damper', part.damper, 1)]),
    ...(part.terminal
      ? [share('register', part.terminal.kind === 'grille' ? 'Grille' : 'Register', part.terminal.open, 1)]
      : []),
  ];
};

const leakHandle = (owner: string, leak: Leak, label: string): Handle => ({
  id: handleId('leak', owner, leak.id),
  label,
  measure: 'leakage at 25 Pa',
  value: leak.flow25_m3s,
  low: 0,
  high: Math.max(wideLeak_m3s, leak.flow25_m3s),
});

const systemHandles = (system: AirSystem, runs: readonly DuctPart[]): Handle[] => {
  const { filter, leaks, id } = system.airHandler;
  const upstream = runs.length > 0 ? upstreamOf(system, runs) : [];
  return [
    {
      id: handleId('filter', id),
      label: 'Filter drop',
      measure: 'pressure',
      value: filter.drop_Pa,
      low: Math.min(5, filter.drop_Pa),
      high: Math.max(150, filter.drop_Pa),
    },
    ...leaks.map((leak) => leakHandle(id, leak, leakWords[leak.place])),
    ...upstream.flatMap((part) =>
      part.leaks.map((leak) =>
        leakHandle(part.id, leak, `${part.name}: ${leakWords[leak.place].toLowerCase()}`),
      ),
    ),
    ...system.spreadLeakage.map(
      (spread): Handle => ({
        id: handleId('spread', system.id, spread.side),
        label: `Other ${spread.side} leakage`,
        measure: 'leakage at 25 Pa',
        value: spread.flow25_m3s,
        low: 0,
        high: Math.max(wideLeak_m3s * 2, spread.flow25_m3s),
      }),
    ),
  ];
};

/** Parts between some runs and the air handler, from the air handler outward, each once. */
const upstreamOf = (system: AirSystem, runs: readonly DuctPart[]): DuctPart[] => {
  const byId = new Map(system.parts.map((part) => [part.id, part]));
  const found = new Set<DuctPart>();
  for (const run of runs)
    for (let part = byId.get(run.joins); part && !found.has(part); part = byId.get(part.joins))
      found.add(part);
  return [...found].toReversed();
};

const doorHandles = (survey: Survey, room: string): Handle[] =>
  survey.doors
    .filter((door) => door.between.includes(room) && door.shutArea_m2 < door.openArea_m2)
    .map((door) => ({
      id: handleId('door', door.id),
      label: `Door to ${nameOf(survey, door.between[0] === room ? door.between[1] : door.between[0])}`,
      measure: 'open or shut',
      value: door.open,
    }));

const nameOf = (survey: Survey, id: string): string =>
  [...survey.rooms, ...survey.zones].find((place) => place.id === id)?.name ?? id;
