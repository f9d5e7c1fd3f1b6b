import { ductFriction } from '../ducts/duct-friction.ts';
import { ductConductance_WmK, ductFilms } from '../ducts/duct-insulation.ts';
import { damperCoefficient, fittingLosses, shutShare } from '../ducts/fitting-loss.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import { leakCoefficient } from '../ducts/leakage-law.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import type { Junction } from '../network/types.ts';
import type { AirSystem, DuctPart, Leak } from '../survey/types.ts';
import { type AirState, leakLaw, pressureDropLaw } from './air-density.ts';
import { type AirDraft, addElement, addNode, spaceNode } from './air-draft.ts';
import { joinPosition_m, partLayout } from './part-layout.ts';

/** One side of a system while its ducts are being added. */
export type DuctSide = {
  readonly draft: AirDraft;
  readonly system: AirSystem;
  readonly side: 'supply' | 'return';
  readonly air: AirState;
  readonly density_kgm3: number;
  /** Airflow each part is meant to carry, m³/s. */
  readonly designFlow_m3s: ReadonlyMap<string, number>;
  /** Share of a whole-system leakage test, by part. */
  readonly spread: ReadonlyMap<string, readonly Leak[]>;
  readonly children: ReadonlyMap<string, readonly DuctPart[]>;
  /** Air-handler end of every part added so far, both sides of the system. */
  readonly nearEnds: Map<string, number>;
};

/** Where a part joins the tree: the node, and the pieces of the joined part on either side of it. */
type Joint = {
  readonly node: number;
  /** Piece between the joint and the air handler: it carries all the air that passes the joint. */
  readonly common?: number;
  /** Piece of the joined part beyond the joint. */
  readonly straight?: number;
};

/** Adds a part and everything that joins it. Pieces are drawn in the usual direction of the air. */
export function addDuctTree(to: DuctSide, part: DuctPart, joint: Joint): void {
  const children = to.children.get(part.id) ?? [];
  const leaks = [...part.leaks, ...(to.spread.get(part.id) ?? [])];
  const { cuts_m, alongShares } = partLayout(part, children, leaks);
  to.nearEnds.set(part.id, joint.node);

  const nodes = cuts_m.map((_, i) => {
    if (i === 0) return joint.node;
    if (part.endsOn !== undefined && i === cuts_m.length - 1) return to.nearEnds.get(part.endsOn)!;
    return addNode(to.draft, { kind: 'duct', id: part.id }, `${to.system.id}/${part.id}/${i}`);
  });
  const pieces = addPieces(to, part, cuts_m, nodes);
  addTee(to, part, joint, pieces[0]);

  // A joint in the wall of the joined part feels the static pressure there, not that of the branch behind it.
  const commonAt = (i: number) => (i === 0 ? (joint.common ?? pieces[0]) : pieces[i - 1]);
  // In a boot, wider than its run, the air is slow: its joints feel nearly the total pressure.
  const staticAt = (i: number) => (part.terminal && i === nodes.length - 1 ? undefined : commonAt(i));
  for (const leak of leaks) {
    const shares =
      leak.at === 'along'
        ? alongShares
        : nodes.map((_, i) => +(i === (leak.at === 'start' ? 0 : nodes.length - 1)));
    shares.forEach((share, i) => {
      if (share > 0) addLeak(to, part, leak, share, nodes[i]!, staticAt(i));
    });
  }
  if (part.terminal) addTerminal(to, part, part.terminal, nodes.at(-1)!);
  for (const child of children) {
    const at_m = joinPosition_m(part, child);
    const i = at_m >= cuts_m.at(-1)! ? cuts_m.length - 1 : cuts_m.indexOf(at_m);
    addDuctTree(to, child, { node: nodes[i]!, common: commonAt(i), straight: pieces[i] });
  }
}

function addPieces(
  to: DuctSide,
  part: DuctPart,
  cuts_m: readonly number[],
  nodes: readonly number[],
): number[] {
  const { area_m2, perimeter_m, hydraulicDiameter_m } = sectionGeometry(part.section);
  const design = ductFriction(part.section, part.roughness_m, to.designFlow_m3s.get(part.id)!, {
    density_kgm3: to.density_kgm3,
    kinematicViscosity_m2s: to.air.kinematicViscosity_m2s,
  });
  const losses = fittingLosses(part.fittings, design.frictionFactor, hydraulicDiameter_m);
  const damper = part.damper === undefined ? 0 : damperCoefficient(part.damper);
  const films = ductFilms(part, part.jacketEmittance, design.velocity_ms);
  const conductance_WmK = ductConductance_WmK(part, films);
  const last = cuts_m.length - 2;
  return cuts_m.slice(1).map((end_m, i) => {
    const length_m = end_m - cuts_m[i]!;
    const share = part.length_m > 0 ? length_m / part.length_m : 1;
    const [near, far] = [nodes[i]!, nodes[i + 1]!];
    return addElement(
      to.draft,
      `${to.system.id}/${part.id}/piece-${i}`,
      {
        kind: 'duct',
        length_m,
        area_m2,
        hydraulicDiameter_m,
        roughness_m: part.roughness_m,
        lossCoefficient:
          (i === 0 ? losses.near + damper : 0) + losses.along * share + (i === last ? losses.far : 0),
        slackFactor: part.flexible ? flexSlackFactor(part.slack, hydraulicDiameter_m) : 1,
        density_kgm3: to.density_kgm3,
      },
      {
        kind: part.role === 'bypass' ? 'bypass' : 'duct',
        from: to.side === 'supply' ? near : far,
        to: to.side === 'supply' ? far : near,
        system: to.system.id,
        side: to.side,
        of: part.id,
        conductance_WK: conductance_WmK * length_m,
        surface_m2: perimeter_m * length_m,
        surroundings: part.zone,
      },
    );
  });
}

/** The losses of a tee that follow the split of the flows, on the branch and on the straight way. */
function addTee(to: DuctSide, part: DuctPart, joint: Joint, branch: number | undefined): void {
  const kind = part.fittings.find((fitting) => fitting.followsSplit)?.followsSplit;
  if (!kind || joint.common === undefined || branch === undefined) return;
  const common = joint.common;
  const [onBranch, onStraight] =
    kind === 'converging'
      ? (['converging', 'converging'] as const)
      : (['diverging-branch', 'diverging-straight'] as const);
  const setJunction = (index: number, junctionKind: Junction['kind']) => {
    const element = to.draft.networkElements[index]!;
    const junction: Junction = {
      kind: junctionKind,
      common,
      ownArea_m2: areaOf(to, index),
      commonArea_m2: areaOf(to, common),
    };
    to.draft.networkElements[index] = { ...element, junction };
  };
  setJunction(branch, onBranch);
  if (joint.straight !== undefined) setJunction(joint.straight, onStraight);
}

function areaOf(to: DuctSide, index: number): number {
  const element = to.draft.networkElements[index]!;
  if (element.kind !== 'duct') throw new Error('only pieces of duct meet in a tee');
  return element.area_m2;
}

/** A leak runs from the duct to the space around it, whichever way its air goes. */
function addLeak(
  to: DuctSide,
  part: DuctPart,
  leak: Leak,
  share: number,
  node: number,
  staticOf: number | undefined,
): void {
  const coefficient = share * leakCoefficient(leak.flow25_m3s, leak.exponent);
  addElement(
    to.draft,
    `${to.system.id}/${leak.id}`,
    { ...leakLaw(coefficient, leak.exponent, to.air), staticOf, density_kgm3: to.density_kgm3 },
    {
      kind: 'leak',
      from: node,
      to: spaceNode(to.draft, leak.zone),
      system: to.system.id,
      side: to.side,
      of: part.id,
      leak: { id: leak.id, place: leak.place },
      surroundings: leak.zone,
    },
  );
}

/** Register or grille, and the filter behind a grille. */
function addTerminal(
  to: DuctSide,
  part: DuctPart,
  terminal: NonNullable<DuctPart['terminal']>,
  end: number,
): void {
  const room = spaceNode(to.draft, terminal.room);
  const name = `${to.system.id}/${terminal.id}`;
  const meaning = { system: to.system.id, side: to.side, of: part.id, terminal: terminal.id };
  let behind = end;
  if (terminal.filter && terminal.filter.drop_Pa > 0) {
    behind = addNode(to.draft, { kind: 'duct', id: part.id }, `${name}/behind`);
    const [from, onward] = to.side === 'supply' ? [end, behind] : [behind, end];
    const law = { ...pressureDropLaw(terminal.filter, to.air), density_kgm3: to.density_kgm3 };
    addElement(to.draft, `${name}/filter`, law, { kind: 'filter', from, to: onward, ...meaning });
  }
  const [from, onward] = to.side === 'supply' ? [behind, room] : [room, behind];
  addElement(
    to.draft,
    name,
    {
      kind: 'square',
      coefficient: terminal.lossCoefficient,
      area_m2: terminal.freeArea_m2 * Math.max(shutShare, terminal.open),
      density_kgm3: to.density_kgm3,
    },
    { kind: 'terminal', from, to: onward, ...meaning },
  );
}
