import {
  type Check,
  formatQuantity,
  type Mode,
  type RoomOff,
  type UnitSystem,
  wantsAir,
} from '@airledger/engine';
import type { PlanMisses, RoomMiss } from '@airledger/job';
import { checkFigure } from './check-words.ts';

const degrees = (difference_K: number, units: UnitSystem): string =>
  formatQuantity(Math.abs(difference_K), 'temperatureDifference', units, 1);

const offWords = (drift_K: number, mode: Mode, units: UnitSystem): string =>
  `${degrees(drift_K, units)} too ${drift_K < 0 ? 'cold' : 'warm'} in ${mode}`;

const other = (mode: Mode): Mode => (mode === 'heating' ? 'cooling' : 'heating');

/** A room beyond what it may drift: by how much, in which season, and what stands in its way as far as it can be told. */
export const roomOffWords = (off: RoomOff, units: UnitSystem): string =>
  [
    `${off.name} is ${offWords(off.drift_K, off.mode, units)}, ${degrees(off.beyond_K, units)} beyond what is allowed, with ${formatQuantity(off.airShare, 'ratio', units)} of the air it needs.`,
    ...(off.atFullOutput ? ['Its equipment gives all that it has.'] : []),
    ...(off.opposed
      ? [
          `In ${other(off.mode)} it wants ${wantsAir(off) ? 'less' : 'more'} air, so that no one setting of a damper serves both: set it anew for each season, or see to what the room loses through windows, walls and floor.`,
        ]
      : []),
  ].join(' ');

/** A room that a plan leaves beyond its tolerance, with what was there to choose from and what more would do. */
const roomMissWords = (miss: RoomMiss, units: UnitSystem): string =>
  [
    roomOffWords(miss, units),
    ...(wantsAir(miss) ? [runWords(miss)] : []),
    ...(miss.wider
      ? [
          `Tried on top of this plan: ${miss.wider.what.join('; ')}. The room would be ${Object.entries(
            miss.wider.drift_K,
          )
            .map(([mode, drift_K]) => offWords(drift_K, mode as Mode, units))
            .join(' and ')}.`,
        ]
      : []),
  ].join(' ');

const runWords = ({ onItsRuns, hidden }: RoomMiss): string => {
  if (onItsRuns.length > 0) return `Looked at on its runs: ${onItsRuns.join('; ')}.`;
  return hidden
    ? 'Its duct ends in a finished wall or floor, where it can be neither widened nor straightened.'
    : 'None of the repairs is on its own run, which was not short of air before.';
};

const checkMissWords = (check: Check, units: UnitSystem): string =>
  `${check.title}: ${checkFigure(check, 'value', units)}, ${check.sense} ${checkFigure(check, 'limit', units)} is asked${check.remedy === undefined ? '' : `. ${check.remedy}`}`;

/** What a plan that does not meet its goal misses, a sentence or two for each room or check. */
export const missWords = ({ rooms, checks }: PlanMisses, units: UnitSystem): readonly string[] => [
  ...rooms.map((miss) => roomMissWords(miss, units)),
  ...checks.map((check) => checkMissWords(check, units)),
];
