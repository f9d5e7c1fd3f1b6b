import type { Account, Cause } from '@airledger/engine';

/** Heat that passes without air of its own and yet belongs to the ducts' account. */
const ofDucts: ReadonlySet<Cause> = new Set(['supply conduction', 'return conduction', 'fan heat']);

/**
 * An account without what nobody looks at while a hand moves: facts, surfaces and load lines of the survey, terms of
 * the heat balance, lines of the ledger that no air and no duct has part in, and what is lost on the way to other
 * rooms than the one in hand. These are most of it, and unpacking them would cost the drawing a frame.
 */
export const whileMoving = (account: Account, roomInHand: string | undefined): Account => ({
  ...account,
  survey: { ...account.survey, facts: {}, surfaces: [] },
  loads: { ...account.loads, lines: [] },
  heat: { ...account.heat, terms: { heat: [], exchange: [], moisture: [] } },
  ledger: {
    ...account.ledger,
    lines: account.ledger.lines.filter(({ air_kgs, cause }) => air_kgs !== 0 || ofDucts.has(cause)),
  },
  rooms: account.rooms.map((room) => (room.room === roomInHand ? room : { ...room, losses: [] })),
});
