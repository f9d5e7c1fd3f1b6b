import type { ElementLaw, Junction, NetworkElement, NetworkNode } from '../network/types.ts';
import type { AirElement, AirNode } from './types.ts';

/** A network under construction, with the meaning of every node and element beside it. */
export type AirDraft = {
  readonly networkNodes: NetworkNode[];
  readonly networkElements: NetworkElement[];
  readonly nodes: AirNode[];
  readonly elements: AirElement[];
  /** Nodes of outdoors, rooms and buffer zones by id. */
  readonly spaces: Map<string, number>;
};

/** A network to which house and systems are still to be added. */
export const emptyDraft = (): AirDraft => ({
  networkNodes: [],
  networkElements: [],
  nodes: [],
  elements: [],
  spaces: new Map(),
});

/** Adds a node, free unless its pressure is given, and returns its index. */
export function addNode(draft: AirDraft, node: AirNode, name: string, fixedPressure_Pa?: number): number {
  draft.networkNodes.push({ id: name, fixedPressure_Pa });
  return draft.nodes.push(node) - 1;
}

/** Adds an element with its law and meaning and returns its index. */
export function addElement(
  draft: AirDraft,
  name: string,
  law: ElementLaw & { readonly density_kgm3?: number; readonly junction?: Junction },
  meaning: AirElement,
): number {
  draft.networkElements.push({ id: name, from: meaning.from, to: meaning.to, ...law });
  return draft.elements.push(meaning) - 1;
}

/**
 * Node of a room, buffer zone or 'outdoors'.
 * @throws RangeError for an id the survey does not hold (a checked survey holds them all)
 */
export function spaceNode(draft: AirDraft, id: string): number {
  const node = draft.spaces.get(id);
  if (node === undefined) throw new RangeError(`no room or buffer zone is called '${id}'`);
  return node;
}
