import { openingLossCoefficient } from '../ducts/opening-flow.ts';
import type { Survey } from '../survey/types.ts';
import type { AirState } from './air-density.ts';
import { leakLaw } from './air-density.ts';
import { type AirDraft, addElement, addNode, spaceNode } from './air-draft.ts';

/** Adds outdoors, rooms and buffer zones, and everything that lets air pass between them. */
export function addHouse(draft: AirDraft, survey: Survey, air: AirState): void {
  draft.spaces.set('outdoors', addNode(draft, { kind: 'outdoors', id: 'outdoors' }, 'outdoors', 0));
  for (const room of survey.rooms) {
    draft.spaces.set(room.id, addNode(draft, { kind: 'room', id: room.id }, room.id));
  }
  for (const zone of survey.zones) {
    draft.spaces.set(zone.id, addNode(draft, { kind: 'zone', id: zone.id }, zone.id));
  }
  addEnvelope(draft, survey, air);
  addZoneOpenings(draft, survey);
  addDoors(draft, survey);
  addTransfers(draft, survey);
}

/** The blower-door leakage of the house, shared over rooms and over what lies behind their walls. */
function addEnvelope(draft: AirDraft, survey: Survey, air: AirState): void {
  const { leakage50_m3s, leakageExponent: exponent } = survey.house;
  const whole = leakage50_m3s / 50 ** exponent;
  for (const room of survey.rooms) {
    const toZones = room.envelopeTo.reduce((sum, { share }) => sum + share, 0);
    const ways = [...room.envelopeTo, { zone: 'outdoors', share: Math.max(0, 1 - toZones) }];
    for (const { zone, share } of ways) {
      const coefficient = whole * room.envelopeShare * share;
      if (coefficient === 0) continue;
      const meaning = { from: spaceNode(draft, room.id), to: spaceNode(draft, zone), of: room.id };
      const law = leakLaw(coefficient, exponent, air);
      addElement(draft, `${room.id}/envelope/${zone}`, law, { kind: 'envelope', ...meaning });
    }
  }
}

function addZoneOpenings(draft: AirDraft, survey: Survey): void {
  for (const zone of survey.zones) {
    if (zone.openingCoefficient === 0) continue;
    addElement(
      draft,
      `${zone.id}/opening`,
      { kind: 'leak', coefficient: zone.openingCoefficient, exponent: zone.openingExponent },
      {
        kind: 'zone opening',
        from: spaceNode(draft, zone.id),
        to: spaceNode(draft, 'outdoors'),
        of: zone.id,
      },
    );
  }
}

function addDoors(draft: AirDraft, survey: Survey): void {
  for (const door of survey.doors) {
    const area_m2 = door.open ? door.openArea_m2 : door.shutArea_m2;
    if (area_m2 === 0) continue;
    const [from, to] = door.between.map((id) => spaceNode(draft, id)) as [number, number];
    const law = { kind: 'square', coefficient: openingLossCoefficient, area_m2 } as const;
    addElement(draft, door.id, law, { kind: 'door', from, to, of: door.id });
  }
}

function addTransfers(draft: AirDraft, survey: Survey): void {
  for (const transfer of survey.transfers) {
    const [from, to] = transfer.between.map((id) => spaceNode(draft, id)) as [number, number];
    addElement(
      draft,
      transfer.id,
      { kind: 'square', coefficient: transfer.lossCoefficient, area_m2: transfer.freeArea_m2 },
      { kind: 'transfer', from, to, of: transfer.id },
    );
  }
}
