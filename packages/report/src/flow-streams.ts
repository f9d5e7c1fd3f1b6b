import type { Account } from '@airledger/engine';

/** One stream of air out of the air handlers. Flows are m³/s and ≥ 0. */
export type FlowStream = {
  readonly id: string;
  readonly name: string;
  readonly kind: 'room' | 'lost';
  readonly flow_m3s: number;
  /** What a room needs; 0 for what is lost. */
  readonly needed_m3s: number;
};

/** Places for losses that a drawing has room for. */
const mostLosses = 3;

/**
 * Where the air of one account goes: to rooms, shortest first, and out of leaks by the place they open to, smallest
 * first. Leaks into rooms are one stream, and so is what is left beyond the few largest.
 */
export const flowStreams = (account: Account): readonly FlowStream[] => {
  const missing = ({ flow_m3s, needed_m3s }: FlowStream) => Math.max(0, needed_m3s - flow_m3s);
  const rooms = account.rooms
    .filter(({ delivered_m3s, needed_m3s }) => delivered_m3s > 0 || needed_m3s > 0)
    .map(
      ({ room, name, delivered_m3s, needed_m3s }): FlowStream => ({
        id: room,
        name,
        kind: 'room',
        flow_m3s: delivered_m3s,
        needed_m3s,
      }),
    )
    .toSorted((a, b) => missing(b) - missing(a) || b.flow_m3s - a.flow_m3s);
  const lost = lostBy(account).toSorted((a, b) => b.flow_m3s - a.flow_m3s);
  const shown = lost.length > mostLosses ? lost.slice(0, mostLosses - 1) : lost;
  const rest = lost.slice(shown.length).reduce((sum, { flow_m3s }) => sum + flow_m3s, 0);
  return [...rooms, ...(rest > 0 ? [loss('elsewhere', 'elsewhere', rest)] : []), ...shown.toReversed()];
};

const loss = (id: string, name: string, flow_m3s: number): FlowStream => ({
  id: `lost/${id}`,
  name,
  kind: 'lost',
  flow_m3s,
  needed_m3s: 0,
});

/** Net air out of supply leaks, by buffer zone and for all rooms together. */
const lostBy = ({ survey, ledger, air }: Account): readonly FlowStream[] => {
  const ducts = new Set(
    survey.systems.flatMap(({ airHandler, parts }) => [airHandler.id, ...parts.map(({ id }) => id)]),
  );
  const names = new Map(survey.zones.map(({ id, name }) => [id, name]));
  const sums = new Map<string, number>();
  for (const line of ledger.lines) {
    if (line.cause !== 'supply leak') continue;
    const isOut = ducts.has(line.from);
    const place = isOut ? line.to : line.from;
    const id = names.has(place) || place === 'outdoors' ? place : 'rooms';
    const flow = line.air_kgs / air.referenceDensity_kgm3;
    sums.set(id, (sums.get(id) ?? 0) + (isOut ? flow : -flow));
  }
  const wording = (id: string) => (id === 'rooms' ? 'rooms on the way' : (names.get(id) ?? id));
  return [...sums].filter(([, flow]) => flow > 0).map(([id, flow]) => loss(id, wording(id), flow));
};

/** Air that a drawing of these streams has to hold, m³/s: pass the larger of two to draw both to one scale. */
export const flowExtent = (streams: readonly FlowStream[]): number =>
  streams.reduce((sum, { flow_m3s, needed_m3s }) => sum + Math.max(flow_m3s, needed_m3s), 0);
