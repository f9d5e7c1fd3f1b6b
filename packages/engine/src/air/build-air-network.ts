import type { Network } from '../network/types.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { addHouse } from './add-house.ts';
import { addSystem, type SystemPlaces } from './add-system.ts';
import { addVentilators } from './add-ventilators.ts';
import { type AirConditions, referenceAir } from './air-density.ts';
import { emptyDraft } from './air-draft.ts';
import type { AirElement, AirNode } from './types.ts';

/** A survey as an air network; indices of nodes and elements agree with those of the network. */
export type AirNetwork = {
  readonly network: Network;
  readonly nodes: readonly AirNode[];
  readonly elements: readonly AirElement[];
  readonly systems: readonly SystemPlaces[];
};

/**
 * The air network of a survey: outdoors (held at 0 Pa), rooms, buffer zones and every piece of duct between them.
 * @param conditions air temperatures in the ducts of each system; they set densities only
 * @throws RangeError when a part refers to a space that does not exist, or a system lacks conditions
 */
export function buildAirNetwork(survey: Survey, mode: Mode, conditions: AirConditions): AirNetwork {
  const air = referenceAir(survey, mode);
  const draft = emptyDraft();
  addHouse(draft, survey, air);
  const systems = survey.systems.map((system) => {
    const own = conditions[system.id];
    if (!own) throw new RangeError(`no air temperatures are given for system '${system.id}'`);
    return addSystem(draft, survey, system, mode, own, air);
  });
  addVentilators(draft, survey, systems);
  return {
    network: {
      nodes: draft.networkNodes,
      elements: draft.networkElements,
      air: { density_kgm3: air.reference_kgm3, kinematicViscosity_m2s: air.kinematicViscosity_m2s },
    },
    nodes: draft.nodes,
    elements: draft.elements,
    systems,
  };
}
