import type { Account } from '@airledger/engine';

/**
 * An account without what nobody looks at while a hand moves: facts, surfaces and load lines of the survey, terms of
 * the heat balance, and what is lost on the way to other rooms than the one in hand. These are three quarters of it,
 * and unpacking them would cost the drawing a frame.
 */
export const whileMoving = (account: Account, roomInHand: string | undefined): Account => ({
  ...account,
  survey: { ...account.survey, facts: {}, surfaces: [] },
  loads: { ...account.loads, lines: [] },
  heat: { ...account.heat, terms: { heat: [], exchange: [], moisture: [] } },
  rooms: account.rooms.map((room) => (room.room === roomInHand ? room : { ...room, losses: [] })),
});
