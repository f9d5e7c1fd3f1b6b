import { formatQuantity, type UnitSystem } from '@airledger/engine';
import type { Reading } from '@airledger/engine/readings/types';

/** How a fan flow came about that no instrument showed as it stands; undefined where one did. */
export const fanFlowWords = (
  { value, accuracy, workedOut }: Reading,
  units: UnitSystem,
): string | undefined => {
  if (!workedOut) return undefined;
  const flow = `${formatQuantity(value, 'airflow', units)} ± ${formatQuantity(accuracy / Math.abs(value), 'ratio', units)}`;
  if (workedOut.by === 'plenum pressure')
    return `${flow} at the plenum pressure in use: ${formatQuantity(workedOut.read_m3s, 'airflow', units)} as read, in air of the site, × ${workedOut.factor.toFixed(3)}, the root of the ratio of the two pressures`;
  const { heat_W, rise_K } = workedOut;
  return `${flow} by temperature rise: heat of ${formatQuantity(heat_W, 'power', units)} over a rise of ${formatQuantity(rise_K, 'temperatureDifference', units)}, H/(ρ·cp·ΔT) with the density of the site`;
};
