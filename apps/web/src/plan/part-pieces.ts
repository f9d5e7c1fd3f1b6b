import type { Account, AirElement, DuctPart } from '@airledger/engine';

/** A stretch of a duct part between two places where air leaves it or joins it. */
export type PartPiece = {
  /** Shares of the part's length from its air-handler end. */
  readonly from: number;
  readonly to: number;
  /** Network nodes at its two ends, nearer to the air handler first. */
  readonly near: number;
  readonly far: number;
  /** Air that passes, positive away from the air handler in a supply part and towards it in a return part. */
  readonly flow_m3s: number;
  /** Mean temperature of the air in it while the fan runs. */
  readonly temperature_C: number;
};

/** The pieces of every drawn part, by part id, from the air-handler end outward. */
export const partPieces = (account: Account): ReadonlyMap<string, readonly PartPiece[]> => {
  const indexes = new Map<string, number[]>();
  account.air.elements.forEach((element, i) => {
    if (element.kind === 'duct') indexes.set(element.of, [...(indexes.get(element.of) ?? []), i]);
  });
  const pieces = new Map<string, readonly PartPiece[]>();
  for (const system of account.survey.systems)
    for (const part of system.parts) pieces.set(part.id, piecesOf(account, part, indexes.get(part.id) ?? []));
  return pieces;
};

const piecesOf = (account: Account, part: DuctPart, indexes: readonly number[]): PartPiece[] => {
  const { elements, solution } = account.air;
  const along = chained(elements, indexes);
  const outward = part.side === 'return' ? along.toReversed() : along;
  const sizes = outward.map((i) => elements[i]!.surface_m2 ?? 0);
  const whole = sizes.reduce((sum, size) => sum + size, 0);
  let from = 0;
  return outward.map((i, n) => {
    const share = whole > 0 ? sizes[n]! / whole : 1 / outward.length;
    const { from: drawnFrom, to: drawnTo } = elements[i]!;
    const piece = {
      near: part.side === 'supply' ? drawnFrom : drawnTo,
      far: part.side === 'supply' ? drawnTo : drawnFrom,
      from,
      to: n === outward.length - 1 ? 1 : from + share,
      flow_m3s: solution.flow_m3s[i]!,
      temperature_C: meanTemperature(account, i),
    };
    from += share;
    return piece;
  });
};

/** Elements of one part in the order in which their air is drawn, whatever their order in the list. */
const chained = (elements: readonly AirElement[], indexes: readonly number[]): number[] => {
  const startingAt = new Map(indexes.map((i) => [elements[i]!.from, i]));
  const ends = new Set(indexes.map((i) => elements[i]!.to));
  const chain: number[] = [];
  let next = indexes.find((i) => !ends.has(elements[i]!.from));
  while (next !== undefined && chain.length < indexes.length) {
    chain.push(next);
    next = startingAt.get(elements[next]!.to);
  }
  return chain.length === indexes.length ? chain : [...indexes];
};

const meanTemperature = (account: Account, i: number): number => {
  const { from, to } = account.air.elements[i]!;
  const entering = (account.air.solution.flow_m3s[i] ?? 0) >= 0 ? from : to;
  return (
    (account.heat.floating.nodeTemperature_C[entering]! + account.heat.floating.leavingTemperature_C[i]!) / 2
  );
};
