import type { Account, Cause, LeakPlace, LedgerLine } from '@airledger/engine';
import type { Quantity } from '../state/store.ts';
import type { Stream } from './flow-layout.ts';

/** What the air handlers give, and where it ends up; all in m³/s of air or in W. */
export type Streams = {
  readonly streams: readonly Stream[];
  /** Sum of all streams. */
  readonly given: number;
  /** What equipment gives of that; the rest comes in on the way (`gains`). */
  readonly gains: readonly { readonly name: string; readonly value: number }[];
  /** What goes to each place that is not a room, by place id. */
  readonly lostTo: readonly { readonly place: string; readonly value: number }[];
  /** Imbalance over the throughput. */
  readonly residual: number;
};

type Value = (line: LedgerLine) => number;

/** Reads the streams of one quantity out of an account's ledger. */
export const streamsOf = (account: Account, quantity: Quantity): Streams => {
  const value = valueIn(account, quantity);
  const gotBy = new Map(account.rooms.map(({ room }) => [room, givenTo(account, room, quantity, value)]));
  const rooms = account.rooms.map((room): Stream => {
    const got = gotBy.get(room.room)!;
    return {
      id: room.room,
      name: room.name,
      kind: 'room',
      value: Math.max(0, got),
      missing: missing(account, room.room, quantity, got),
      strength: strengthOf(account, room.arrives_C),
    };
  });
  const losses = (quantity === 'air' ? leakGroups(account, value) : heatLosses(account, value)).filter(
    (stream) => Math.abs(stream.value) > 1e-9,
  );
  const streams = [...rooms, ...losses.filter((stream) => stream.value > 0)];
  return {
    streams,
    given: streams.reduce((sum, stream) => sum + stream.value, 0),
    gains: [
      // A room whose supply air takes from it (moister than the air it gets, in winter) feeds the account.
      ...account.rooms.map(({ room, name }) => ({ name, value: -gotBy.get(room)! })),
      ...losses.map(({ name, value }) => ({ name, value: -value })),
    ].filter((gain) => gain.value > 1e-9),
    lostTo: lostTo(account, value),
    residual: account.ledger.residual[quantity === 'moisture' ? 'latent' : quantity],
  };
};

/** Positive is what the system is there to give: air, heat in winter, cooling and drying in summer. */
const valueIn = (account: Account, quantity: Quantity): Value => {
  const sign = account.mode === 'heating' ? 1 : -1;
  if (quantity === 'air') return (line) => line.air_kgs / account.air.referenceDensity_kgm3;
  return quantity === 'sensible' ? (line) => sign * line.sensible_W : (line) => sign * line.latent_W;
};

const sum = (lines: readonly LedgerLine[], value: Value): number =>
  lines.reduce((all, line) => all + value(line), 0);

/** Supply air into a room, less what its registers draw back. */
const supplied = (account: Account, room: string, value: Value): number =>
  sum(account.ledger.lines, (line) => {
    if (line.cause !== 'supply air') return 0;
    return line.to === room ? value(line) : line.from === room ? -value(line) : 0;
  });

/** What a kilogram of a room's air carries, read off any line by which air leaves it. */
const carriedBy = (account: Account, room: string, value: Value): number => {
  const line = account.ledger.lines.find(({ from, air_kgs }) => from === room && air_kgs > 0);
  return line ? value(line) / (line.share * line.air_kgs) : 0;
};

/** Heat that supply air would bring at the state of the room that it enters. */
const atRoomState = (account: Account, room: string, value: Value): number =>
  carriedBy(account, room, value) * supplied(account, room, (line) => line.share * line.air_kgs);

/** What the supply air gives to a room; its heat counts from the room's own state, as the room feels it. */
const givenTo = (account: Account, room: string, quantity: Quantity, value: Value): number =>
  supplied(account, room, value) - (quantity === 'air' ? 0 : atRoomState(account, room, value));

const missing = (account: Account, room: string, quantity: Quantity, got: number): number => {
  const standing = account.rooms.find((each) => each.room === room)!;
  const need = { air: standing.needed_m3s, sensible: standing.load_W, moisture: 0 }[quantity];
  return Math.max(0, need - Math.max(0, got));
};

const strengthOf = (account: Account, arrives_C: number | undefined): number => {
  const system = account.systems[0];
  if (arrives_C === undefined || !system) return 0;
  const room = account.ledger.referenceTemperature_C;
  const span = system.leavesAt_C - room;
  return Math.abs(span) < 0.1 ? 0 : Math.min(1, Math.max(0, (arrives_C - room) / span));
};

const placeWords: Record<LeakPlace, string> = {
  cabinet: 'cabinet',
  plenum: 'plenum',
  seam: 'seams',
  takeoff: 'takeoffs',
  joint: 'joints',
  boot: 'boots',
};

const loss = (id: string, name: string, value: number): Stream => ({
  id,
  name,
  kind: 'loss',
  value,
  missing: 0,
  strength: 1,
});

/** Places inside the ducts: what leaves them is lost, what enters them is gained. */
const ductPlaces = (account: Account): ReadonlySet<string> =>
  new Set(
    account.survey.systems.flatMap((system) => [
      system.airHandler.id,
      ...system.parts.map((part) => part.id),
    ]),
  );

const outOfDucts = (account: Account, cause: Cause, value: Value): ((line: LedgerLine) => number) => {
  const ducts = ductPlaces(account);
  return (line) => {
    if (line.cause !== cause) return 0;
    return ducts.has(line.from) ? value(line) : -value(line);
  };
};

const leakGroups = (account: Account, value: Value): Stream[] => {
  const lost = outOfDucts(account, 'supply leak', value);
  return (Object.keys(placeWords) as LeakPlace[]).map((place) =>
    loss(
      `leak/${place}`,
      placeWords[place],
      sum(
        account.ledger.lines.filter((line) => line.place === place),
        lost,
      ),
    ),
  );
};

const heatLosses = (account: Account, value: Value): Stream[] => {
  const through = (cause: Cause) => sum(account.ledger.lines, outOfDucts(account, cause, value));
  // Rooms off their set point mix on the way back: what returns differs from what the rooms gave up.
  const mixed =
    account.rooms.reduce((all, { room }) => all + atRoomState(account, room, value), 0) -
    sum(
      account.ledger.lines.filter((line) => line.cause === 'return air' && isRoom(account, line.from)),
      value,
    );
  return [
    loss('supply-leaks', 'supply leaks', through('supply leak')),
    loss('conduction', 'duct walls', through('supply conduction')),
    loss('return-leaks', 'return leaks', through('return leak')),
    loss('return-conduction', 'return walls', through('return conduction')),
    loss(
      'fan',
      'fan heat',
      -sum(
        account.ledger.lines.filter((line) => line.cause === 'fan heat'),
        value,
      ),
    ),
    loss('mixing', 'mixing', mixed),
  ];
};

const isRoom = (account: Account, id: string): boolean => account.survey.rooms.some((room) => room.id === id);

const lostTo = (account: Account, value: Value): Streams['lostTo'] => {
  const ducts = ductPlaces(account);
  const by = new Map<string, number>();
  for (const line of account.ledger.lines) {
    if (line.cause !== 'supply leak' && line.cause !== 'supply conduction') continue;
    const place = ducts.has(line.from) ? line.to : line.from;
    by.set(place, (by.get(place) ?? 0) + (ducts.has(line.from) ? value(line) : -value(line)));
  }
  return [...by].map(([place, lost]) => ({ place, value: lost })).toSorted((a, b) => b.value - a.value);
};
