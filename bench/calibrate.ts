import { seededRandom } from '@airledger/engine';
import { inferDefects } from '@airledger/engine/calibrate/draw-defects';
import { fitReadings } from '@airledger/engine/calibrate/fit';
import { forwardModel, startPressures } from '@airledger/engine/calibrate/forward-model';
import { posteriorSample } from '@airledger/engine/calibrate/posterior-sample';
import { priorOf } from '@airledger/engine/calibrate/prior';
import { normalRandom } from '@airledger/engine/numerics/normal-random';
import { caseModel } from '../tests/fixtures/case-house.ts';
import { modelId, readingIds, takeReadings } from '../tests/fixtures/case-readings.ts';
import { randomCase } from '../tests/fixtures/random-case-house.ts';
import { type Line, limited, plain } from './line.ts';
import { callTime, median } from './measure.ts';

const houses = [2, 3, 5];
const readingCount = 40;
const drawCount = 500;

/** Fit, search for defects and draws with forty readings (pans and hoods at every register among them), one core. */
export function calibrate(): Line[] {
  const fits: number[] = [];
  const searches: number[] = [];
  const draws: number[] = [];
  for (const seed of houses) {
    const house = randomCase(seed);
    const ids = readingIds(house, '+temps').slice(0, readingCount);
    const readings = takeReadings(house, ids, normalRandom(seededRandom(seed)));
    const forward = forwardModel(
      caseModel(
        house.network,
        readings.map(([id, value, sd]) => [modelId(id), value, sd] as const),
      ),
    );
    const fitOnce = () =>
      fitReadings(
        forward,
        priorOf(forward.model),
        { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) },
        { mostIterations: 30 },
      );
    fitOnce();
    fits.push(callTime(fitOnce, 5) / 1e6);
    const hypotheses = toEnd(() => inferDefects(forward));
    searches.push(callTime(() => toEnd(() => inferDefects(forward)), 1) / 1e6);
    draws.push(callTime(() => toEnd(() => posteriorSample(forward, hypotheses, drawCount, 1)), 1) / 1e6);
  }
  return [
    limited(`fit of ${readingCount} readings`, median(fits), 's', 'most', 0.2),
    limited('the same with the search for defects', median(searches), 's', 'most', 2),
    plain('the same, slowest of three houses', Math.max(...searches), 's'),
    limited(`${drawCount} draws of what the readings allow`, median(draws), 's', 'most', 5),
  ];
}

function toEnd<T>(start: () => Generator<unknown, T>): T {
  const steps = start();
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}
