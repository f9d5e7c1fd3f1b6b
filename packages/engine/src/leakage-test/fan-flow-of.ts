import type { SystemStanding } from '../account/types.ts';
import type { Reading } from '../readings/types.ts';
import type { FanFlow } from './types.ts';

/** Relative standard deviation of a fan flow that is only computed from the survey (assumed). */
const computedError = 0.1;

/**
 * Fan flow of each system that its leakage is compared with: as measured, the most certain reading where there are
 * several, else as the account has it. Systems that move no air are left out.
 */
export const fanFlowsOf = (
  readings: readonly Reading[],
  standings: readonly SystemStanding[],
): Readonly<Record<string, FanFlow>> =>
  Object.fromEntries(
    standings.flatMap(({ system, fanFlow_m3s }): [string, FanFlow][] => {
      const measured = readings
        .filter(({ subject, value }) => subject.kind === 'fan flow' && subject.system === system && value > 0)
        .toSorted((a, b) => a.accuracy / a.value - b.accuracy / b.value)[0];
      if (measured) {
        const { value, accuracy } = measured;
        return [[system, { flow_m3s: value, relativeError: accuracy / value, source: 'measured' }]];
      }
      return fanFlow_m3s > 0
        ? [
            [
              system,
              { flow_m3s: fanFlow_m3s, relativeError: computedError, source: 'computed from the survey' },
            ],
          ]
        : [];
    }),
  );
