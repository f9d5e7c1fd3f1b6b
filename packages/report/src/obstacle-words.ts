import { type BalanceObstacle, formatQuantity, type Survey, type UnitSystem } from '@airledger/engine';
import { nameOf } from './place-names.ts';

const remedies: Readonly<Record<BalanceObstacle['kind'], (places: string) => string>> = {
  'no damper': (places) =>
    `Too much air, and no damper in the run: ${places}. Put one at the takeoff, where it is quiet and can be reached.`,
  'nearly shut': (places) =>
    `Set with the damper nearly shut, which will whistle: ${places}. Make the run smaller.`,
  'short of air': (places) =>
    `Short of air: ${places}. Dampers only share out what there is: see first why the room is short (leaks, slack, filter, way back, size of its run).`,
  'static above rating': (places) =>
    `Static pressure over what the air handler is rated for: ${places}. Widen what all the air passes (return, filter, coil) before throttling runs.`,
};

/** What dampers can not mend, a sentence for each kind with its places and what would. */
export const obstacleWords = (
  survey: Survey,
  obstacles: readonly BalanceObstacle[],
  units: UnitSystem,
): string[] => {
  const name = nameOf(survey);
  const place = ({ kind, room, system, value }: BalanceObstacle) =>
    kind === 'static above rating'
      ? `${name(system)} by ${formatQuantity(value - 1, 'ratio', units)}`
      : `${name(room!)} (${formatQuantity(value, 'ratio', units)} of need)`;
  return [...new Set(obstacles.map(({ kind }) => kind))].map((kind) => {
    const places = new Set(obstacles.filter((one) => one.kind === kind).map(place));
    return remedies[kind]([...places].join(', '));
  });
};
