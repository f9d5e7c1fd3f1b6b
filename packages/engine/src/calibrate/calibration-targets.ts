import type { SurveyModel } from './model-of-survey.ts';
import { isRun, leakName, nearLoss, partName, shareName } from './survey-parameters.ts';
import type { Target } from './targets.ts';

/** A figure of the report: what it is, and the target that gives it. */
export type Figure = {
  readonly id: string;
  readonly target: Target;
  /** Share by which the laws themselves may be wrong about it, on top of what readings leave open. */
  readonly modelError?: number;
};

/**
 * Shares by which laws are wrong about the house in use: a leak's exponent is known to ± 0.035, which at three times
 * the test pressure is 4 % of its flow; registers and ducts keep their laws to some per cent. Assumed, no source.
 */
export const modelErrors = { operatingLeak: 0.04, registerFlow: 0.015 } as const;

/** Names of figures. */
export const figureId = {
  leak25: (spot: string) => `leak25 ${spot}`,
  leakOut: (spot: string) => `leak outdoors ${spot}`,
  share: (spot: string) => `share ${spot}`,
  group25: (group: string) => `group25 ${group}`,
  groupOut: (group: string) => `group outdoors ${group}`,
  restriction: (run: string) => `restriction ${run}`,
  unknown: (id: string) => `unknown ${id}`,
  terminal: (terminal: string) => `flow ${terminal}`,
  total25: 'total25',
  outdoors25: 'outdoors25',
  supply25: 'supply25',
  return25: 'return25',
  supplyOut: 'supply outdoors',
  returnOut: 'return outdoors',
  fan: 'fan flow',
} as const;

/** Places shown together, because readings often cannot tell them apart. */
export type LeakGroup = {
  readonly id: string;
  readonly kind: 'run' | 'trunk' | 'supply plenum' | 'cabinet' | 'return';
  readonly spots: readonly string[];
};

/** Groups of a model's spots: by run (boot and takeoff), trunk part, supply plenum, cabinet, return side. */
export function leakGroups(model: SurveyModel): LeakGroup[] {
  const groups = new Map<string, { kind: LeakGroup['kind']; spots: string[] }>();
  for (const spot of model.spots) {
    const kind =
      spot.kind === 'cabinet' || spot.kind === 'supply plenum'
        ? spot.kind
        : spot.side === 'return'
          ? 'return'
          : spot.run !== undefined || spot.kind === 'takeoff'
            ? 'run'
            : 'trunk';
    const id = kind === 'run' || kind === 'trunk' ? spot.part! : kind;
    const known = groups.get(id);
    if (known) known.spots.push(spot.id);
    else groups.set(id, { kind, spots: [spot.id] });
  }
  return [...groups].map(([id, group]) => ({ id, ...group }));
}

/** Every figure of the report, as targets of the estimator. */
export function figuresOf(model: SurveyModel, groups: readonly LeakGroup[]): Figure[] {
  const { spots, parameters, edges, system } = model;
  const at = parameters.at;
  const byId = new Map(spots.map((spot) => [spot.id, spot]));
  const flow = (ids: readonly number[], ln: boolean): Target => ({
    kind: 'flow',
    edges: ids.map((edge) => ({ edge, sign: 1 })),
    ln,
  });
  const outside = (ids: readonly string[]) =>
    ids.flatMap((id) => (byId.get(id)!.outside === byId.get(id)!.inside ? [] : edges.leaks.get(id)!.outside));
  const sum25 = (ids: readonly string[], goes?: 'outdoors'): Target => ({
    kind: 'sum',
    constant: 0,
    terms: ids.flatMap((id) => {
      const spot = byId.get(id)!;
      const split = spot.outside !== spot.inside;
      if (goes && !split) return [];
      return [
        {
          parameter: at(leakName(spot)),
          factor: 1,
          ...(goes ? { share: { parameter: at(shareName(spot)), goes } } : {}),
        },
      ];
    }),
  });
  const figures: Figure[] = [];
  const add = (id: string, target: Target) => {
    const empty =
      (target.kind === 'flow' && target.edges.length === 0) ||
      (target.kind === 'sum' && target.terms.length === 0);
    if (empty) return;
    const modelError =
      target.kind !== 'flow' ? 0 : target.ln ? modelErrors.operatingLeak : modelErrors.registerFlow;
    figures.push({ id, target, modelError });
  };
  for (const spot of spots) {
    add(figureId.leak25(spot.id), { kind: 'unknown', parameter: at(leakName(spot)) });
    add(figureId.leakOut(spot.id), flow(outside([spot.id]), true));
    if (spot.outside !== spot.inside)
      add(figureId.share(spot.id), { kind: 'unknown', parameter: at(shareName(spot)) });
  }
  for (const group of groups) {
    add(figureId.group25(group.id), sum25(group.spots));
    add(figureId.groupOut(group.id), flow(outside(group.spots), true));
  }
  for (const part of system.parts.filter(isRun)) {
    add(figureId.restriction(part.id), restriction(model, part.id));
    for (const kind of ['damper', 'slack', 'register'] as const) {
      const parameter = at(partName(kind, part.id));
      add(figureId.unknown(parameters.list[parameter]!.id), { kind: 'unknown', parameter });
    }
  }
  parameters.list.forEach(({ id, kind }, parameter) => {
    if (kind === 'house') add(figureId.unknown(id), { kind: 'unknown', parameter });
  });
  for (const [terminal, edge] of edges.terminals) add(figureId.terminal(terminal), flow([edge], false));
  const ids = (side?: 'supply' | 'return') =>
    spots.filter((spot) => side === undefined || spot.side === side).map(({ id }) => id);
  add(figureId.total25, sum25(ids()));
  add(figureId.outdoors25, sum25(ids(), 'outdoors'));
  add(figureId.supply25, sum25(ids('supply')));
  add(figureId.return25, sum25(ids('return')));
  add(figureId.supplyOut, flow(outside(ids('supply')), true));
  add(figureId.returnOut, flow(outside(ids('return')), true));
  add(figureId.fan, flow([edges.fan], false));
  return figures;
}

/** ln of a run's drop at its working flow over that of the survey: damper, slack and register together. */
function restriction(model: SurveyModel, run: string): Target {
  const { edges, parameters, system, flow_m3s, air } = model;
  const part = system.parts.find(({ id }) => id === run)!;
  const e = air.elements.findIndex((element) => element.kind === 'terminal' && element.of === run);
  const flow = Math.max(0.01, Math.abs(flow_m3s[e]!));
  let constant = 0;
  const terms: { parameter: number; factor: number }[] = [];
  const dropOf = (edge: number, offset: number) => {
    const { exponent, lnCoefficient } = edges.edges[edge]!;
    return Math.exp((Math.log(flow) - lnCoefficient - offset) / exponent);
  };
  edges.edges.forEach((edge, i) => {
    const isPiece = edge.id.startsWith(`${system.id}/${run}/piece-`);
    if (!isPiece && i !== edges.terminals.get(part.terminal!.id)) return;
    const term = edge.terms[0];
    if (term) terms.push({ parameter: term.parameter, factor: dropOf(i, 0) });
    else constant += dropOf(i, 0);
  });
  const surveyed = terms.reduce((sum, { parameter, factor }) => {
    const { kind, mean } = parameters.list[parameter]!;
    return sum + factor * Math.exp(kind === 'damper' ? Math.log(Math.max(0.3, nearLoss(part))) : mean);
  }, constant);
  return {
    kind: 'sum',
    constant: constant / surveyed,
    terms: terms.map(({ parameter, factor }) => ({ parameter, factor: factor / surveyed })),
  };
}
