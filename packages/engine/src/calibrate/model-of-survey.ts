import { airTemperatures } from '../account/air-temperatures.ts';
import type { SystemPlaces } from '../air/add-system.ts';
import type { AirConditions } from '../air/air-density.ts';
import { type AirNetwork, buildAirNetwork } from '../air/build-air-network.ts';
import { computeLoads } from '../loads/compute-loads.ts';
import { compileNetwork, solveNetwork } from '../network/index.ts';
import type { AirSystem, Mode, Survey } from '../survey/types.ts';
import { type LeakSizes, type LeakSpot, leakSpots, withLeaks } from './leak-places.ts';
import { type SurveyEdges, surveyEdges } from './survey-edges.ts';
import { leakName, type SurveyParameters, shareName, surveyParameters } from './survey-parameters.ts';

/** One air handler of a survey as the estimator's network, laid against a working point of the engine's own solve. */
export type SurveyModel = {
  readonly survey: Survey;
  readonly system: AirSystem;
  readonly mode: Mode;
  readonly spots: readonly LeakSpot[];
  readonly parameters: SurveyParameters;
  readonly edges: SurveyEdges;
  readonly air: AirNetwork;
  readonly places: SystemPlaces;
  /** Nodes of outdoors, rooms and zones by id. */
  readonly spaces: ReadonlyMap<string, number>;
  /** Air flow of every element at the working point, m³/s. */
  readonly flow_m3s: Float64Array;
};

/** Sizes of leaks before any reading: the medians of their priors. */
export const priorLeaks = (spots: readonly LeakSpot[], parameters: SurveyParameters): LeakSizes =>
  new Map(
    spots.map((spot) => {
      const share = spot.outside === spot.inside ? 0 : parameters.list[parameters.at(shareName(spot))]!.mean;
      return [
        spot.id,
        {
          flow25_m3s: Math.exp(parameters.list[parameters.at(leakName(spot))]!.mean),
          share: 1 / (1 + Math.exp(-share)),
        },
      ] as const;
    }),
  );

/**
 * The estimator's model of one system of a survey. What the survey says and how it is known makes the priors; ducts,
 * fittings and fan are the engine's own, laid against the flows of a solve with the fan on and doors shut.
 *
 * @param near a survey that is closer to the truth, for the working point only; the survey itself when absent
 * @throws RangeError for an unknown system, or a house whose air does not settle
 */
export function modelOfSurvey(survey: Survey, systemId: string, mode: Mode, near?: Survey): SurveyModel {
  const system = survey.systems.find(({ id }) => id === systemId);
  if (!system) throw new RangeError(`no system '${systemId}' in this survey`);
  const spots = leakSpots(survey, system);
  const parameters = surveyParameters(survey, system, spots);
  const sizes = priorLeaks(spots, parameters);
  const conditions = airTemperatures(survey, mode, computeLoads(survey, mode));
  const own = prepared(withLeaks(survey, systemId, spots, sizes), systemId);
  const air = buildAirNetwork(own, mode, conditions);
  const point = workingPoint(near ? prepared(near, systemId) : own, mode, conditions);
  if (point.flow_m3s.length !== air.elements.length)
    throw new RangeError('a working point must be of the same house');
  const places = air.systems[0]!;
  return {
    survey,
    system,
    mode,
    spots,
    parameters,
    edges: surveyEdges(survey, system, spots, sizes, parameters, air, point),
    air,
    places,
    spaces: new Map(
      air.nodes.flatMap((node, i) =>
        node.kind === 'duct' ? [] : [[node.kind === 'outdoors' ? 'outdoors' : node.id, i] as const],
      ),
    ),
    flow_m3s: point.flow_m3s,
  };
}

/** One system with its fan running, doors shut and ventilators off, so that every edge exists. */
function prepared(survey: Survey, systemId: string): Survey {
  return {
    ...survey,
    doors: survey.doors.map((door) => ({
      ...door,
      open: false,
      shutArea_m2: Math.max(1e-4, door.shutArea_m2),
    })),
    ventilators: survey.ventilators.map((one) => ({ ...one, running: false })),
    systems: survey.systems
      .filter(({ id }) => id === systemId)
      .map((system) => ({
        ...system,
        airHandler: { ...system.airHandler, fan: { ...system.airHandler.fan, running: true } },
      })),
  };
}

function workingPoint(survey: Survey, mode: Mode, conditions: AirConditions) {
  const { network } = buildAirNetwork(survey, mode, conditions);
  const solution = solveNetwork(compileNetwork(network));
  if (!solution.converged) throw new RangeError('the air of the surveyed house does not settle');
  return solution;
}
