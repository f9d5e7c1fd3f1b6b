import { leakCoefficient } from '../ducts/leakage-law.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import { spreadLeakage } from '../ducts/spread-leakage.ts';
import type { AirSystem, DuctPart, Mode, PressureDrop, Survey } from '../survey/types.ts';
import { addDuctTree } from './add-duct-tree.ts';
import {
  type AirState,
  fanLaw,
  leakLaw,
  pressureDropLaw,
  type SystemConditions,
  siteDensity,
} from './air-density.ts';
import { type AirDraft, addElement, addNode, spaceNode } from './air-draft.ts';

/** Nodes and elements of one air handler that results are read from. */
export type SystemPlaces = {
  readonly system: string;
  readonly fan: number;
  /** Where the return ducts end, before filter and cabinet leaks, and where the supply ducts begin. */
  readonly returning: number;
  readonly leaving: number;
  /** Openings of the cabinet whose external static is rated. */
  readonly supplyOpening: number;
  readonly returnOpening: number;
  readonly supplyArea_m2: number;
  readonly returnArea_m2: number;
  /** Space the cabinet stands in. */
  readonly around: number;
  /** Air-handler end of every duct part. */
  readonly nearEnds: ReadonlyMap<string, number>;
};

/**
 * Adds one system: return ducts, air handler, supply ducts.
 *
 * Air passes filter, coil, fan when the coil is inside the cabinet (air handler, drawn through) and filter, fan,
 * coil when it is outside (furnace, blown through). Cabinet leaks sit at the fan inlet, where suction is greatest,
 * unless they are said to be at the far end, which is the fan's pressure side. Rated external static is taken at the
 * cabinet openings: an internal coil and its filter are part of the cabinet, an external coil and the filter
 * before a furnace are not (common practice, no source).
 */
export function addSystem(
  draft: AirDraft,
  survey: Survey,
  system: AirSystem,
  mode: Mode,
  conditions: SystemConditions,
  air: AirState,
): SystemPlaces {
  const density = {
    supply: siteDensity(survey, conditions.supplyTemperature_C),
    return: siteDensity(survey, conditions.returnTemperature_C),
  };
  const handler = system.airHandler;
  const node = (place: string) =>
    addNode(draft, { kind: 'duct', id: handler.id }, `${system.id}/air-handler/${place}`);
  const meaning = { system: system.id, of: handler.id };
  /** A filter or coil; one without any loss joins its two nodes into one. */
  const drop = (
    kind: 'filter' | 'coil',
    from: number,
    place: string,
    loss: PressureDrop,
    ofSide: 'supply' | 'return',
  ) => {
    if (loss.drop_Pa === 0) return from;
    const to = node(place);
    const law = { ...pressureDropLaw(loss, air), density_kgm3: density[ofSide] };
    addElement(draft, `${system.id}/${kind}`, law, { kind, from, to, side: ofSide, ...meaning });
    return to;
  };

  const returnEnd = node('return');
  const behindFilter = drop('filter', returnEnd, 'behind filter', handler.filter, 'return');
  const fanInlet = handler.coilExternal
    ? behindFilter
    : drop('coil', behindFilter, 'fan inlet', handler.coil, 'return');
  const fanOutlet = node('fan outlet');
  // The wheel moves the air behind an internal coil, but the air before an external one.
  const fanDensity_kgm3 = density[handler.coilExternal ? 'return' : 'supply'];
  const fan = addElement(
    draft,
    `${system.id}/fan`,
    { ...fanLaw(handler.fan, mode, air), density_kgm3: fanDensity_kgm3 },
    { kind: 'fan', from: fanInlet, to: fanOutlet, ...meaning },
  );
  const supplyEnd = handler.coilExternal
    ? drop('coil', fanOutlet, 'supply', handler.coil, 'supply')
    : fanOutlet;

  for (const leak of handler.leaks) {
    const side = leak.at === 'end' ? 'supply' : 'return';
    const law = leakLaw(leakCoefficient(leak.flow25_m3s, leak.exponent), leak.exponent, air);
    addElement(
      draft,
      `${system.id}/${leak.id}`,
      { ...law, density_kgm3: density[side] },
      {
        kind: 'leak',
        from: side === 'supply' ? supplyEnd : fanInlet,
        to: spaceNode(draft, leak.zone),
        side,
        leak: { id: leak.id, place: leak.place },
        surroundings: leak.zone,
        ...meaning,
      },
    );
  }

  const children = childrenByPart(system);
  const roots = children.get('air-handler') ?? [];
  const common = {
    draft,
    system,
    air,
    children,
    designFlow_m3s: designFlows(system, mode, children),
    spread: spreadLeakage(system),
    nearEnds: new Map<string, number>(),
  };
  // Return ducts first: a bypass ends on one of them.
  for (const [side, end] of [
    ['return', returnEnd],
    ['supply', supplyEnd],
  ] as const) {
    for (const part of roots.filter((root) => root.side === side)) {
      addDuctTree({ ...common, side, density_kgm3: density[side] }, part, { node: end });
    }
  }

  const openingArea_m2 = (side: DuctPart['side']) =>
    roots
      .filter((root) => root.side === side && root.role !== 'bypass')
      .reduce((sum, root) => sum + sectionGeometry(root.section).area_m2, 0);
  return {
    system: system.id,
    fan,
    returning: returnEnd,
    leaving: supplyEnd,
    supplyOpening: fanOutlet,
    returnOpening: handler.coilExternal ? behindFilter : returnEnd,
    supplyArea_m2: openingArea_m2('supply'),
    returnArea_m2: openingArea_m2('return'),
    around: spaceNode(draft, handler.zone),
    nearEnds: common.nearEnds,
  };
}

function childrenByPart(system: AirSystem): Map<string, DuctPart[]> {
  const children = new Map<string, DuctPart[]>();
  for (const part of system.parts) {
    const siblings = children.get(part.joins);
    if (siblings) siblings.push(part);
    else children.set(part.joins, [part]);
  }
  return children;
}

/**
 * Airflow each part is meant to carry: the system's design airflow shared over the terminals of a side by free area.
 * It only sets friction factors of equivalent lengths and inside films, which depend on it weakly.
 */
function designFlows(
  system: AirSystem,
  mode: Mode,
  children: ReadonlyMap<string, readonly DuctPart[]>,
): Map<string, number> {
  const areas_m2 = new Map<string, number>();
  const gather = (part: DuctPart): number => {
    const own = part.terminal?.freeArea_m2 ?? 0;
    const area_m2 = (children.get(part.id) ?? []).reduce((sum, child) => sum + gather(child), own);
    areas_m2.set(part.id, area_m2);
    return area_m2;
  };
  const flows = new Map<string, number>();
  for (const side of ['supply', 'return'] as const) {
    const roots = (children.get('air-handler') ?? []).filter((part) => part.side === side);
    const total_m2 = roots.reduce((sum, root) => sum + gather(root), 0);
    for (const part of system.parts.filter((one) => one.side === side)) {
      const share = total_m2 > 0 ? (areas_m2.get(part.id) ?? 0) / total_m2 : 1;
      // A part without terminals (a bypass, a capped stub) still needs a flow to take a friction factor at.
      flows.set(part.id, system.designAirflow_m3s[mode] * Math.max(share, 0.05));
    }
  }
  return flows;
}
