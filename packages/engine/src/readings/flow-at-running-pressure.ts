/**
 * Airflow of a fan in use from the one read while its supply plenum stood at another pressure: Q·√(P_running/P_read).
 * The ducts behind the plenum are the same in both, and their pressure goes as the square of the flow. For plenum
 * pressure matching, where the match is not exact, and for flow plates (ASHRAE Standard 152 and ANSI/RESNET/ICC 310 in
 * method, from memory).
 * @param read_m3s as read, with the tester or the plate in place
 * @param running_Pa static pressure of the supply plenum with everything as it usually runs
 * @param read_Pa the same while the flow was read, of the same sign
 * @throws RangeError where the two are not of one sign, or one is 0
 */
export function flowAtRunningPressure(read_m3s: number, running_Pa: number, read_Pa: number): number {
  if (!(running_Pa / read_Pa > 0) || running_Pa === 0)
    throw new RangeError('a flow is brought to another pressure of the same sign only');
  return read_m3s * Math.sqrt(running_Pa / read_Pa);
}

/** What the square root may be off as an exponent: filters, and registers that bend, are no squares (assumed). */
const exponentSpread = 0.05;

/** Relative standard deviation that bringing a flow to another pressure adds; none where the two match. */
export const matchError = (running_Pa: number, read_Pa: number): number =>
  exponentSpread * Math.abs(Math.log(running_Pa / read_Pa));
