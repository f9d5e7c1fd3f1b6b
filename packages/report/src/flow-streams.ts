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

/** Where the air of one account goes: to rooms, shortest first, and out of leaks by the place they open to. */
export const flowStreams = ({ rooms, air, survey, ledger }: Account): readonly FlowStream[] => {
  const zoneName = (id: string) =>
    [...survey.zones, ...survey.rooms].find((place) => place.id === id)?.name ?? id;
  const lost = new Map<string, number>();
  const ducts = new Set(
    survey.systems.flatMap(({ airHandler, parts }) => [airHandler.id, ...parts.map(({ id }) => id)]),
  );
  for (const line of ledger.lines) {
    if (line.cause !== 'supply leak') continue;
    const flow = line.air_kgs / air.referenceDensity_kgm3;
    if (ducts.has(line.from)) lost.set(line.to, (lost.get(line.to) ?? 0) + flow);
    else lost.set(line.from, (lost.get(line.from) ?? 0) - flow);
  }
  const missing = ({ flow_m3s, needed_m3s }: FlowStream) => Math.max(0, needed_m3s - flow_m3s);
  return [
    ...rooms
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
      .toSorted((a, b) => missing(b) - missing(a) || b.flow_m3s - a.flow_m3s),
    ...[...lost]
      .filter(([, flow]) => flow > 0)
      .map(
        ([id, flow_m3s]): FlowStream => ({
          id,
          name: zoneName(id),
          kind: 'lost',
          flow_m3s,
          needed_m3s: 0,
        }),
      ),
  ];
};

/** Air that a drawing of these streams has to hold, m³/s: pass the larger of two to draw both to one scale. */
export const flowExtent = (streams: readonly FlowStream[]): number =>
  streams.reduce((sum, { flow_m3s, needed_m3s }) => sum + Math.max(flow_m3s, needed_m3s), 0);
