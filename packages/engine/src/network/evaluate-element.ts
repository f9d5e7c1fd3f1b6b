import { compileNetwork } from './compile.ts';
import { pass } from './pass.ts';
import { RECORD } from './record.ts';
import type { FrictionLaw, NetworkAir, NetworkElement } from './types.ts';

const { CONDUCTANCE, DROP, SLOPE, SOURCE } = RECORD;

/** Visits after which 1/√f, one Newton step at each, is exact. */
const SETTLING_VISITS = 6;

/**
 * Drop and slope of one element's own law at a given flow, from the very loops that the solver runs (a fan's drop is
 * minus its rise). Terms that hang on other elements are left out.
 *
 * @param flow_m3s at the density of `air`, positive from → to
 * @throws RangeError when the element can not be meant as written
 */
export function evaluateElement(
  element: NetworkElement,
  flow_m3s: number,
  air: NetworkAir,
  frictionLaw: FrictionLaw = 'colebrook',
): { readonly drop_Pa: number; readonly slope_Pas_m3: number } {
  const alone = compileNetwork({
    nodes: [
      { id: 'from', fixedPressure_Pa: 0 },
      { id: 'to', fixedPressure_Pa: 0 },
    ],
    elements: [{ ...element, from: 0, to: 1 }],
    air,
    frictionLaw,
  });
  for (let visit = 0; visit < SETTLING_VISITS; visit++) {
    alone.records[SOURCE] = flow_m3s;
    alone.records[CONDUCTANCE] = 0;
    pass(alone);
  }
  return { drop_Pa: alone.records[DROP]!, slope_Pas_m3: alone.records[SLOPE]! };
}
