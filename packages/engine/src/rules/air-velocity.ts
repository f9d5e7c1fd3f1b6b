import type { Account } from '../account/types.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import type { AirSystem, DuctPart } from '../survey/types.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atMost } from './verdict.ts';

type Speed = { readonly limit: string; readonly name: string; readonly velocity_ms: number };

/** Air speeds of a system in ducts and at faces, the worst of each kind in either mode, against trade limits. */
export function airVelocity(system: AirSystem, accounts: readonly Account[]): readonly Check[] {
  const speeds = accounts.flatMap((account) => speedsOf(system, account));
  const kinds = [...new Set(speeds.map(({ limit }) => limit))];
  return [
    ...kinds.map((kind) =>
      judge(
        system,
        kind,
        speeds.filter(({ limit }) => limit === kind),
      ),
    ),
    ...cabinetFilter(system),
  ];
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

function speedsOf(system: AirSystem, { air }: Account): readonly Speed[] {
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  return air.elements.flatMap((element, index) => {
    const part = element.system === system.id ? parts.get(element.of) : undefined;
    if (!part) return [];
    const flow_m3s = Math.abs(air.solution.flow_m3s[index]!);
    if (element.kind === 'duct') {
      const limit = ductLimit(part);
      return limit
        ? [{ limit, name: part.name, velocity_ms: flow_m3s / sectionGeometry(part.section).area_m2 }]
        : [];
    }
    return element.kind === 'terminal' ? faceSpeeds(part, flow_m3s) : [];
  });
}

function faceSpeeds({ terminal }: DuctPart, flow_m3s: number): readonly Speed[] {
  if (!terminal) return [];
  const speed = { name: terminal.name, velocity_ms: flow_m3s / terminal.faceArea_m2 };
  const face = { ...speed, limit: terminal.kind === 'register' ? 'register-velocity' : 'grille-velocity' };
  return terminal.filter ? [face, { ...speed, limit: 'filter-velocity' }] : [face];
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
