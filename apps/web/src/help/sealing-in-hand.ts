import type { Survey } from '@airledger/engine';

/** A smaller change is a rounding, m³/s. */
const least_m3s = 1e-5;

/** Duct leakage at 25 Pa that a survey states, m³/s: of all parts, cabinets and sides. */
const statedLeakage_m3s = ({ systems }: Survey): number =>
  systems.reduce(
    (sum, { parts, airHandler, spreadLeakage }) =>
      sum +
      [...parts, airHandler].reduce(
        (leaks, holder) => leaks + holder.leaks.reduce((flow, leak) => flow + leak.flow25_m3s, 0),
        0,
      ) +
      spreadLeakage.reduce((flow, spread) => flow + spread.flow25_m3s, 0),
    0,
  );

/** Whether ducts leak less in the house in hand than in the one it began from. */
export const isSealing = (began: Survey, inHand: Survey): boolean =>
  statedLeakage_m3s(inHand) < statedLeakage_m3s(began) - least_m3s;
