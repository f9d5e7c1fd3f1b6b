import { account, type Mode, seededRandom } from '@airledger/engine';
import { type Job, surveyOf } from '@airledger/job';
import { applyTrials, type Trials } from '../trial/trials.ts';
import { drawFrom } from './draw.ts';
import { figuresOf, type Ranges, rangesOf } from './ranges.ts';

export type RangeQuestion = {
  readonly state: string;
  readonly mode: Mode;
  /** Tried values are taken as they are tried, without a range. */
  readonly trials: Trials;
};

const houses = 80;
const seed = 20_250_715;

/**
 * 10–90 % of every figure, from houses drawn out of the ranges that were typed, each solved in full.
 * The same question always draws the same houses. Undefined when it is no longer wanted.
 */
export const sampleRanges = async (
  job: Job,
  { state, mode, trials }: RangeQuestion,
  stillWanted: () => Promise<boolean>,
): Promise<Ranges | undefined> => {
  const uniform = seededRandom(seed);
  let ranged = 0;
  const solve = () =>
    account(
      applyTrials(
        surveyOf(job, state, (_path, range) => {
          ranged++;
          return drawFrom(range, uniform);
        }),
        trials,
      ),
      mode,
    );
  const figures = [figuresOf(solve())];
  if (ranged === 0) return {};
  while (figures.length < houses) {
    if (!(await stillWanted())) return undefined;
    figures.push(figuresOf(solve()));
  }
  return rangesOf(figures);
};
