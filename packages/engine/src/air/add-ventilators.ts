import type { Survey } from '../survey/types.ts';
import type { SystemPlaces } from './add-system.ts';
import { type AirDraft, addElement, spaceNode } from './air-draft.ts';

/**
 * Adds ventilators as imposed flows, drawn the way their air goes. Fresh air enters the return part a ventilator is
 * tied to, or else its room; stale air leaves its room, or else the same return part.
 */
export function addVentilators(draft: AirDraft, survey: Survey, systems: readonly SystemPlaces[]): void {
  const outdoors = spaceNode(draft, 'outdoors');
  for (const ventilator of survey.ventilators) {
    const room = ventilator.room === undefined ? undefined : spaceNode(draft, ventilator.room);
    const duct = systems
      .map(({ nearEnds }) => nearEnds.get(ventilator.returnPart ?? ''))
      .find((node) => node !== undefined);
    const [freshTo, staleFrom] = [duct ?? room, room ?? duct];
    if (freshTo === undefined || staleFrom === undefined) continue;
    const law = { kind: 'fixed-flow', flow_m3s: ventilator.running ? ventilator.flow_m3s : 0 } as const;
    const add = (way: 'fresh' | 'stale', from: number, to: number) =>
      addElement(draft, `${ventilator.id}/${way}`, law, { kind: 'ventilator', from, to, of: ventilator.id });
    if (ventilator.kind !== 'exhaust') add('fresh', outdoors, freshTo);
    if (ventilator.kind !== 'supply') add('stale', staleFrom, outdoors);
  }
}
