import type { AirNetwork } from '../air/build-air-network.ts';
import { evaluateElement } from '../network/evaluate-element.ts';
import type { DuctLaw, FanLaw, NetworkAir, NetworkElement } from '../network/types.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import { type LeakSizes, type LeakSpot, leakId } from './leak-places.ts';
import {
  doorName,
  isRun,
  leakName,
  nearLoss,
  partName,
  type SurveyParameters,
  shareName,
} from './survey-parameters.ts';
import type { ModelEdge } from './types.ts';

/** Edges of the estimator that stand for the elements of an air network, and what each is. */
export type SurveyEdges = {
  readonly edges: readonly ModelEdge[];
  readonly nodeCount: number;
  readonly fan: number;
  readonly fanOff: number;
  readonly filters: readonly number[];
  /** Register or grille by terminal id. */
  readonly terminals: ReadonlyMap<string, number>;
  readonly doors: ReadonlyMap<string, number>;
  /** Outer and inner edge of every spot. */
  readonly leaks: ReadonlyMap<string, { readonly outside: number[]; readonly inside: number[] }>;
  /** Node behind the damper of a run, before its duct. */
  readonly takeoffs: ReadonlyMap<string, number>;
  /** Edge that carries the air of an element. */
  readonly edgeOf: ReadonlyMap<number, number>;
  /** Velocity pressure that a leak does not feel while the fan runs as linearised, ln of what is left of its flow. */
  readonly staticShare: readonly { readonly edge: number; readonly ln: number }[];
};

/** State that the laws are laid against: flows and pressures of a solve of the survey with its fan on. */
export type WorkingPoint = {
  readonly flow_m3s: Float64Array;
  readonly pressure_Pa: Float64Array;
};

/** Least flow and drop that a law is laid against. */
const leastFlow_m3s = 0.008;
const leastDrop_Pa = 0.02;
/** Air that a standing fan lets through, Pa at the flow it gives when it runs; assumed. */
const standingFan_Pa = 35;
/** A fan that holds its flow is one with so much pressure in hand; assumed. */
const holdingFan = 10;

/**
 * Turns the elements of an air network into edges of one law each, laid against the flows of a working point, so that
 * both networks agree there. A run becomes damper (with its takeoff), duct and what is left, in series.
 */
export function surveyEdges(
  survey: Survey,
  system: AirSystem,
  spots: readonly LeakSpot[],
  sizes: LeakSizes,
  parameters: SurveyParameters,
  air: AirNetwork,
  point: WorkingPoint,
): SurveyEdges {
  const edges: ModelEdge[] = [];
  let nodeCount = air.nodes.length;
  const filters: number[] = [];
  const terminals = new Map<string, number>();
  const doors = new Map<string, number>();
  const leaks = new Map(spots.map(({ id }) => [id, { outside: [] as number[], inside: [] as number[] }]));
  const takeoffs = new Map<string, number>();
  const edgeOf = new Map<number, number>();
  const staticShare: { edge: number; ln: number }[] = [];
  let [fan, fanOff] = [-1, -1];
  const parts = new Map(system.parts.map((part) => [part.id, part]));
  const doorIds = new Set(survey.doors.map(({ id }) => id));
  const spotOf = new Map(
    spots.flatMap((spot) =>
      (['outside', 'inside'] as const).map((goes) => [leakId(spot, goes), { spot, goes }] as const),
    ),
  );
  const term = (id: string, weight: number) => ({ parameter: parameters.at(id), weight });
  const add = (edge: ModelEdge) => edges.push(edge) - 1;
  const between = (from: number, to: number, id: string) => ({ id, from, to });

  air.elements.forEach((element, e) => {
    const law = air.network.elements[e]!;
    const flow = Math.max(leastFlow_m3s, Math.abs(point.flow_m3s[e]!));
    const thin = air.network.air.density_kgm3 / (law.density_kgm3 ?? air.network.air.density_kgm3);
    const rho = air.network.air.density_kgm3 * thin;
    const place = between(element.from, element.to, law.id);
    /** C of a square law Δp = K·½ρ(q/A)² with K = 1. */
    const square = (area_m2: number) => Math.log(area_m2) - 0.5 * Math.log(rho / 2);
    switch (element.kind) {
      case 'duct':
      case 'bypass': {
        if (law.kind !== 'duct') break;
        const part = parts.get(element.of)!;
        const friction = straightDuct(law, flow, air.network.air);
        const m = friction.exponent;
        const q = point.flow_m3s[e]!;
        const solved = point.pressure_Pa[element.from]! - point.pressure_Pa[element.to]!;
        const velocity_Pa = (rho / 2) * (flow / law.area_m2) ** 2;
        // What a tee adds by the split of its flows is taken as it was at the working point.
        const tee =
          law.junction && q > leastFlow_m3s
            ? solved - friction.drop_Pa * law.slackFactor - law.lossCoefficient * velocity_Pa
            : 0;
        const local_Pa = law.lossCoefficient * velocity_Pa + tee;
        if (!isRun(part)) {
          const total = Math.max(leastDrop_Pa, friction.drop_Pa * law.slackFactor + local_Pa);
          const n = total > leastDrop_Pa ? blend(m, friction.drop_Pa * law.slackFactor, local_Pa) : 0.5;
          const name = part.side === 'supply' ? 'trunk friction' : 'return friction';
          edgeOf.set(
            e,
            add({
              ...place,
              exponent: n,
              lnCoefficient: Math.log(flow) - n * Math.log(total),
              terms: element.kind === 'bypass' ? [] : [term(name, -n)],
            }),
          );
          break;
        }
        let from = element.from;
        const isFirst = law.id.endsWith('/piece-0');
        const near = isFirst ? nearLoss(part) : 0;
        if (isFirst) {
          const behind = nodeCount++;
          takeoffs.set(part.id, behind);
          add({
            ...between(from, behind, `${law.id}/damper`),
            exponent: 0.5,
            lnCoefficient: square(law.area_m2),
            terms: [term(partName('damper', part.id), -0.5)],
          });
          from = behind;
        }
        const rest_Pa = local_Pa - near * velocity_Pa;
        const hasRest = rest_Pa > leastDrop_Pa;
        const n = 1 / m;
        const after = hasRest ? nodeCount++ : element.to;
        edgeOf.set(
          e,
          add({
            ...between(from, after, `${law.id}/duct`),
            exponent: n,
            lnCoefficient: Math.log(flow) - n * Math.log(Math.max(leastDrop_Pa / 2, friction.drop_Pa)),
            terms: [term(partName('slack', part.id), -n)],
          }),
        );
        if (hasRest)
          add({
            ...between(after, element.to, `${law.id}/fittings`),
            exponent: 0.5,
            lnCoefficient: Math.log(flow) - 0.5 * Math.log(rest_Pa),
            terms: [],
          });
        break;
      }
      case 'terminal': {
        if (law.kind !== 'square') break;
        const part = parts.get(element.of)!;
        const supply = isRun(part);
        const terminal = part.terminal!;
        const edge = add({
          ...place,
          exponent: 0.5,
          lnCoefficient: supply
            ? square(terminal.freeArea_m2)
            : square(law.area_m2) - 0.5 * Math.log(law.coefficient),
          terms: supply ? [term(partName('register', part.id), -0.5)] : [],
        });
        terminals.set(terminal.id, edge);
        edgeOf.set(e, edge);
        break;
      }
      case 'filter':
      case 'coil': {
        if (law.kind !== 'power') break;
        const n = 1 / law.exponent;
        const edge = add({
          ...place,
          exponent: n,
          lnCoefficient: -n * Math.log(law.resistance * thin),
          terms: [term(element.kind, -n)],
        });
        if (element.kind === 'filter') filters.push(edge);
        edgeOf.set(e, edge);
        break;
      }
      case 'fan': {
        if (law.kind !== 'fan') break;
        const curve = fanAt(law, flow, air.network.air);
        fan = add({
          ...place,
          exponent: 0.5,
          lnCoefficient: -0.5 * Math.log(curve.fall),
          terms: [],
          source: { pressure_Pa: curve.source_Pa, parameter: parameters.at('fan speed') },
        });
        edgeOf.set(e, fan);
        fanOff = add({
          ...between(element.from, element.to, `${law.id}/standing`),
          exponent: 0.5,
          lnCoefficient: Math.log(flow) - 0.5 * Math.log(standingFan_Pa),
          terms: [],
        });
        break;
      }
      case 'leak': {
        if (law.kind !== 'leak') break;
        const { spot, goes } = spotOf.get(element.leak!.id)!;
        const split = spot.outside !== spot.inside;
        const { flow25_m3s, share } = sizes.get(spot.id)!;
        const built = flow25_m3s * (!split ? 1 : goes === 'outside' ? share : 1 - share);
        const edge = add({
          ...place,
          exponent: law.exponent,
          lnCoefficient: Math.log(law.coefficient / built) - law.exponent * Math.log(thin),
          terms: [term(leakName(spot), 1)],
          ...(split
            ? {
                share: {
                  parameter: parameters.at(shareName(spot)),
                  goes: goes === 'outside' ? ('outdoors' as const) : ('inside' as const),
                },
              }
            : {}),
        });
        leaks.get(spot.id)![goes].push(edge);
        edgeOf.set(e, edge);
        const felt = staticLoss(air.network.elements, law, point);
        const drop = point.pressure_Pa[element.from]! - point.pressure_Pa[element.to]!;
        if (felt > 0 && Math.abs(drop) > 1) {
          const left = Math.max(0.2, Math.abs(drop - felt) / Math.abs(drop));
          staticShare.push({ edge, ln: law.exponent * Math.log(left) });
        }
        break;
      }
      case 'door':
      case 'transfer': {
        if (law.kind !== 'square') break;
        const edge = add({
          ...place,
          exponent: 0.5,
          lnCoefficient: square(law.area_m2) - 0.5 * Math.log(law.coefficient),
          terms: doorIds.has(element.of) ? [term(doorName(element.of), 1)] : [],
        });
        if (element.kind === 'door') doors.set(element.of, edge);
        edgeOf.set(e, edge);
        break;
      }
      case 'envelope':
      case 'zone opening': {
        if (law.kind !== 'leak' || law.coefficient === 0) break;
        edgeOf.set(
          e,
          add({
            ...place,
            exponent: law.exponent,
            lnCoefficient: Math.log(law.coefficient),
            terms: element.kind === 'envelope' ? [term('envelope', 1)] : [],
          }),
        );
        break;
      }
      case 'damper':
      case 'ventilator':
        break;
    }
  });
  return { edges, nodeCount, fan, fanOff, filters, terminals, doors, leaks, takeoffs, edgeOf, staticShare };
}

/** Friction of duct pulled straight at a flow: drop and its exponent there. */
function straightDuct(law: DuctLaw & NetworkElement, flow: number, air: NetworkAir) {
  const bare = { ...law, lossCoefficient: 0, slackFactor: 1, junction: undefined };
  const { drop_Pa, slope_Pas_m3 } = evaluateElement(bare, flow, air);
  return { drop_Pa, exponent: drop_Pa > 0 ? (slope_Pas_m3 * flow) / drop_Pa : 2 };
}

/** Exponent of the flow law of friction and local losses in series. */
function blend(frictionExponent: number, friction_Pa: number, local_Pa: number): number {
  const m =
    (frictionExponent * friction_Pa + 2 * Math.max(0, local_Pa)) / (friction_Pa + Math.max(0, local_Pa));
  return 1 / m;
}

/** rise = source − fall·q² through the curve's working point with its slope there. */
function fanAt(
  law: FanLaw & NetworkElement,
  flow: number,
  air: NetworkAir,
): { source_Pa: number; fall: number } {
  const held = law.control?.flow_m3s;
  const rise = (q: number) => -evaluateElement({ ...law, control: undefined, off: false }, q, air).drop_Pa;
  if (held !== undefined && flow > 0.97 * held) {
    const source_Pa = holdingFan * Math.max(100, rise(held));
    return { source_Pa, fall: (source_Pa - Math.max(50, rise(held) / 2)) / held ** 2 };
  }
  const slope = (rise(flow * 1.05) - rise(flow * 0.95)) / (0.1 * flow);
  const fall = Math.max(-slope / (2 * flow), (0.1 * Math.max(20, rise(flow))) / flow ** 2);
  return { source_Pa: Math.max(20, rise(flow)) + fall * flow ** 2, fall };
}

/** Velocity pressure of the stream that a leak's joint stands beside, Pa. */
function staticLoss(
  elements: readonly NetworkElement[],
  law: NetworkElement & { readonly staticOf?: number },
  point: WorkingPoint,
): number {
  if (law.staticOf === undefined) return 0;
  const beside = elements[law.staticOf]!;
  if (beside.kind !== 'duct' && beside.kind !== 'square') return 0;
  const density = beside.density_kgm3 ?? 1.2;
  return (density / 2) * (point.flow_m3s[law.staticOf]! / beside.area_m2) ** 2;
}
