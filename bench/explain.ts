import { explainRoom, explainWithRange } from '@airledger/engine';
import { calibratedDemo } from './calibrated-demo.ts';
import { type Line, limited } from './line.ts';
import { callTime } from './measure.ts';

const room = 'bedroom-3';

/** Why one room of the first demo house is short: every subset of its causes, then the same with ranges. */
export function explain(): Line[] {
  const { survey, calibration, found } = calibratedDemo();
  explainRoom(found, room);
  explainWithRange(found, survey, calibration, room);
  return [
    limited(
      'shortage of air and heat split over causes',
      callTime(() => explainRoom(found, room), 3) / 1e6,
      's',
      'most',
      0.3,
    ),
    limited(
      'the same with the range of every cause',
      callTime(() => explainWithRange(found, survey, calibration, room), 3) / 1e6,
      's',
      'most',
      0.3,
    ),
  ];
}
