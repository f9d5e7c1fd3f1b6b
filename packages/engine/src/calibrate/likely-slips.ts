import { isShown, type Reading } from '../readings/types.ts';
import { toSi } from '../units/dimension.ts';
import type { LikelySlip } from './calibration.ts';
import type { Check } from './doubts.ts';

const flowUnits = { cfm: toSi('airflow', 1, 'cfm'), 'L/s': 1e-3, 'm³/h': 1 / 3600 } as const;
const pressureUnits = { Pa: 1, 'in.wc': toSi('pressure', 1, 'in.wc'), 'mm H₂O': 9.80665, hPa: 100 } as const;
/** A corrected value fits when it comes within this many standard deviations. */
const fits = 2.5;
/** A hose that has slipped off or leaks shows at most this share of the pressure; assumed. */
const hoseShare = 0.45;

/**
 * Slips of the hand that would turn what the other readings foretell into what was typed. Any unit is tried, as few hit
 * a foretold value; `typedWrong` has only a wide range to go by, which nearly any factor would hit, and tries few.
 */
export function likelySlips(reading: Reading, check: Check): LikelySlip[] {
  if (!isShown(reading)) return [];
  const { subject, value, accuracy } = reading;
  const { foretold } = check;
  // A larger true value carries a larger error of its instrument.
  const fitsAs = (corrected: number) =>
    Math.abs(corrected - foretold) <=
    fits * Math.max(check.sd, accuracy * Math.max(1, Math.abs(corrected / (value || 1))));
  const slips: LikelySlip[] = [];
  const units = unitsOf(subject.kind);
  for (const [shown, one] of Object.entries(units))
    for (const [meant, other] of Object.entries(units)) {
      const corrected = (value / one) * other;
      if (shown !== meant && fitsAs(corrected)) slips.push({ kind: 'unit', shown, meant, value: corrected });
    }
  if (units === noUnits && 'kind' in subject && subject.kind.endsWith('temperature')) {
    const corrected = ((value - 32) * 5) / 9;
    if (fitsAs(corrected)) slips.push({ kind: 'unit', shown: '°C', meant: '°F', value: corrected });
    const other = value * 1.8 + 32;
    if (fitsAs(other)) slips.push({ kind: 'unit', shown: '°F', meant: '°C', value: other });
  }
  const isPressure = units === pressureUnits;
  if (isPressure && fitsAs(-value) && Math.abs(value) > 3 * accuracy)
    slips.push({ kind: 'sign', value: -value });
  for (const ten of [10, 0.1])
    if (fitsAs(value * ten)) slips.push({ kind: 'factor of ten', value: value * ten });
  if (isPressure && value * foretold >= 0 && Math.abs(value) < hoseShare * Math.abs(foretold))
    slips.push({ kind: 'hose' });
  return slips;
}

const noUnits = {} as const;
function unitsOf(kind: Reading['subject']['kind']): Readonly<Record<string, number>> {
  switch (kind) {
    case 'duct leakage':
    case 'house leakage':
    case 'fan flow':
    case 'terminal flow':
      return flowUnits;
    case 'system static':
    case 'part static':
    case 'pressure pan':
    case 'room pressure':
      return pressureUnits;
    default:
      return noUnits;
  }
}
