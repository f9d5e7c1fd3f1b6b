import { balance as balanced, withNewDampers } from '@airledger/engine';
import { surveyOf } from '@airledger/job';
import { demoJob } from './demo-job.ts';
import { type Line, limited } from './line.ts';

const runs = 12;
const warmUp = 4;

/** Damper positions of the demo houses for heating, cooling and both, every run with a damper. */
export async function balance(): Promise<Line[]> {
  return ['1-quail-run-lane', '2-tamarack-bend'].map((name) => {
    const survey = withNewDampers(surveyOf(demoJob(name), 'as-specified'));
    const times: number[] = [];
    for (let run = 0; run < runs + warmUp; run++) {
      const start = performance.now();
      balanced(survey);
      if (run >= warmUp) times.push(performance.now() - start);
    }
    const median = times.sort((a, b) => a - b)[runs / 2]!;
    return limited(`${name}: both seasons and a compromise, median`, median / 1000, 's', 'most', 0.3);
  });
}
