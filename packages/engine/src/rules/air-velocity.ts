import type { Account } from '../account/types.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import type { AirSystem, DuctPart } from '../survey/types.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atMost } from './verdict.ts';

type Speed = { readonly name: string; readonly velocity_ms: number };

/** Air speeds of a system in ducts and at faces, the worst of each kind in either mode, against trade limits. */
export function airVelocity(system: AirSystem, accounts: readonly Account[]): readonly Check[] {
  const speeds = speedsOf(system, accounts);
  return [...[...speeds].map(([kind, own]) => judge(system, kind, own)), ...cabinetFilter(system)];
}

function judge(system: AirSystem, kind: string, speeds: readonly Speed[]): Check {
  const rule = tradeLimit(kind);
  const worst = speeds.reduce((high, speed) => (speed.velocity_ms > high.velocity_ms ? speed : high));
  const names = (above: number) =>
    [...new Set(speeds.filter(({ velocity_ms }) => velocity_ms > above).map(({ name }) => name))].join(', ');
  const over = names(rule.most!);
  const brisk = rule.recommended === undefined ? '' : names(rule.recommended);
  return {
    ...atMost(worst.velocity_ms, rule.most!),
    id: `trade-${kind}-${system.id}`,
    group: 'trade',
    title: rule.title,
    subject: system.id,
    quantity: 'velocity',
    clause: rule.title,
    source: rule.source,
    evidence: [
      `Computed from the survey; fastest: ${worst.name}.`,
      ...(over ? [`Above the limit: ${over}.`] : []),
      ...(!over && brisk ? [`Above what is recommended: ${brisk}.`] : []),
    ].join(' '),
    ...(over && { remedy: `Enlarge or double ${over}.` }),
  };
}

/** Speeds by the limit that they are held against. */
function speedsOf(system: AirSystem, accounts: readonly Account[]): ReadonlyMap<string, readonly Speed[]> {
  const parts = new Map(
    system.parts.map((part) => [
      part.id,
      { part, limit: ductLimit(part), area_m2: sectionGeometry(part.section).area_m2 },
    ]),
  );
  const speeds = new Map<string, Speed[]>();
  const add = (limit: string, name: string, velocity_ms: number) => {
    const known = speeds.get(limit);
    if (known) known.push({ name, velocity_ms });
    else speeds.set(limit, [{ name, velocity_ms }]);
  };
  for (const { air } of accounts)
    air.elements.forEach((element, index) => {
      const own = element.system === system.id ? parts.get(element.of) : undefined;
      if (!own) return;
      const { part, limit, area_m2 } = own;
      const { terminal } = part;
      const flow_m3s = Math.abs(air.solution.flow_m3s[index]!);
      if (element.kind === 'duct') {
        if (limit) add(limit, part.name, flow_m3s / area_m2);
      } else if (element.kind === 'terminal' && terminal) {
        const velocity_ms = flow_m3s / terminal.faceArea_m2;
        add(
          terminal.kind === 'register' ? 'register-velocity' : 'grille-velocity',
          terminal.name,
          velocity_ms,
        );
        if (terminal.filter) add('filter-velocity', terminal.name, velocity_ms);
      }
    });
  return speeds;
}

function ductLimit({ side, role, flexible }: DuctPart): string | undefined {
  if (role === 'trunk') return `${side}-trunk-velocity`;
  if (role !== 'run') return undefined;
  return side === 'supply' && flexible ? 'supply-flex-velocity' : `${side}-run-velocity`;
}

/** The face of a filter in the cabinet is not part of a survey; silence would look like a pass. */
function cabinetFilter(system: AirSystem): readonly Check[] {
  const atGrille = system.parts.some((part) => part.terminal?.filter);
  if (atGrille || system.airHandler.filter.drop_Pa === 0) return [];
  const rule = tradeLimit('filter-velocity');
  return [
    {
      id: `trade-filter-velocity-${system.id}`,
      group: 'trade',
      title: rule.title,
      result: 'cannot tell',
      subject: system.id,
      quantity: 'velocity',
      limit: rule.most,
      sense: 'at most',
      clause: rule.title,
      source: rule.source,
      evidence: 'The face area of the filter in the cabinet is not in the survey; its size would settle it.',
    },
  ];
}
