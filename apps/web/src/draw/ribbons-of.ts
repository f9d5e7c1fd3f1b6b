import type { Account } from '@airledger/engine';
import { partPieces } from '../plan/part-pieces.ts';
import type { Stretch } from './drawn-duct.tsx';
import { sheetScale } from './sheet.ts';

/** Width of the whole fan flow as a share of the smaller side of the house, and the thinnest ribbon, m. */
const widest = 0.1;
const thinnest_m = 0.06;

export const plainRibbon: readonly Stretch[] = [
  { from: 0, to: 1, width: 2 * thinnest_m * sheetScale, strength: 0.3 },
];

const round = (value: number, step: number): number => Math.round(value / step) * step;

/** How wide and how strong each duct's ribbon is, by part id; `smaller_m` is the smaller side of the house. */
export const ribbonsOf = (
  account: Account | undefined,
  smaller_m: number,
): ReadonlyMap<string, readonly Stretch[]> => {
  if (!account) return new Map();
  const most = Math.max(...account.systems.map((system) => system.fanFlow_m3s), 1e-6);
  const perFlow = (widest * smaller_m) / most;
  const { indoor, systems } = account.survey;
  const room = account.mode === 'heating' ? indoor.heating_C : indoor.cooling_C;
  const pieces = partPieces(account);
  return new Map(
    systems.flatMap((system) => {
      const leaves = account.systems.find((each) => each.system === system.id)?.leavesAt_C ?? room;
      const span = leaves - room;
      return system.parts.map((part) => {
        const own = (pieces.get(part.id) ?? []).map((piece) => ({
          from: round(piece.from, 1e-3),
          to: round(piece.to, 1e-3),
          width: round(Math.max(thinnest_m, Math.abs(piece.flow_m3s) * perFlow) * sheetScale, 0.1),
          strength:
            Math.abs(span) < 0.1
              ? 0
              : round(Math.min(1, Math.max(0, (piece.temperature_C - room) / span)), 0.02),
        }));
        return [part.id, own.length > 0 ? own : plainRibbon] as const;
      });
    }),
  );
};
