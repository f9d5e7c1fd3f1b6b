import type { AirSystem, DuctPart, Leak, Survey } from '@airledger/engine';

/** What is tried on a survey: new values by handle id; nothing else changes. */
export type Trials = Readonly<Record<string, number | boolean>>;

export type HandleKind =
  | 'leak'
  | 'spread'
  | 'insulation'
  | 'slack'
  | 'damper'
  | 'register'
  | 'filter'
  | 'door';

/** Identity of one thing that can be tried: what kind, whose, which. */
export const handleId = (kind: HandleKind, owner: string, which = ''): string =>
  [kind, owner, which].map(encodeURIComponent).join('/');

/** What a handle id is made of. */
export const splitHandle = (id: string) => {
  const [kind, owner, which] = id.split('/').map(decodeURIComponent);
  return { kind: kind as HandleKind, owner: owner!, which: which! };
};

/** The survey with the tried values in place; unknown ids are ignored because another state may lack the part. */
export const applyTrials = (survey: Survey, trials: Trials): Survey =>
  Object.entries(trials).reduce((changed, [id, value]) => applyOne(changed, id, value), survey);

const applyOne = (survey: Survey, id: string, value: number | boolean): Survey => {
  const { kind, owner, which } = splitHandle(id);
  if (kind === 'door')
    return {
      ...survey,
      doors: survey.doors.map((door) => (door.id === owner ? { ...door, open: value === true } : door)),
    };
  if (typeof value !== 'number') return survey;
  return { ...survey, systems: survey.systems.map((system) => onSystem(system, kind, owner, which, value)) };
};

const onSystem = (
  system: AirSystem,
  kind: HandleKind,
  owner: string,
  which: string,
  value: number,
): AirSystem => {
  if (system.airHandler.id === owner || system.id === owner) {
    const { airHandler } = system;
    if (kind === 'filter')
      return { ...system, airHandler: { ...airHandler, filter: { ...airHandler.filter, drop_Pa: value } } };
    if (kind === 'leak')
      return { ...system, airHandler: { ...airHandler, leaks: withLeak(airHandler.leaks, which, value) } };
    if (kind === 'spread')
      return {
        ...system,
        spreadLeakage: system.spreadLeakage.map((spread) =>
          spread.side === which ? { ...spread, flow25_m3s: value } : spread,
        ),
      };
    return system;
  }
  return {
    ...system,
    parts: system.parts.map((part) => (part.id === owner ? onPart(part, kind, which, value) : part)),
  };
};

const onPart = (part: DuctPart, kind: HandleKind, which: string, value: number): DuctPart => {
  switch (kind) {
    case 'leak':
      return { ...part, leaks: withLeak(part.leaks, which, value) };
    case 'insulation':
      return { ...part, insulation_m2KW: value };
    case 'slack':
      return { ...part, slack: value };
    case 'damper':
      return { ...part, damper: value };
    case 'register':
      return part.terminal ? { ...part, terminal: { ...part.terminal, open: value } } : part;
    default:
      return part;
  }
};

const withLeak = (leaks: readonly Leak[], id: string, flow25_m3s: number): Leak[] =>
  leaks.map((leak) => (leak.id === id ? { ...leak, flow25_m3s } : leak));
