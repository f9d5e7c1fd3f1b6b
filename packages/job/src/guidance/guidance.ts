import { type Account, account, type Mode, type RoomStanding, seededRandom } from '@airledger/engine';
import { ninetiethPercentile } from '@airledger/engine/numerics/normal-share';
import type { Job } from '../schema/job-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import type { Sample, Unranged } from '../survey/surveyor.ts';
import { normalFrom } from './draw.ts';
import { type Group, grouping } from './group-of.ts';
import { explainedShare, standardDeviation } from './rank-correlation.ts';
import { inputAt, rangeValue, spreadValue } from './uncertainty.ts';

/** One thing to measure next, and what not knowing it costs. */
export type GuidanceItem = Group & {
  /** The fields that it would settle. */
  readonly paths: readonly string[];
  /** Room that is worst off, which the shortage and the temperature are of; absent in a house without registers. */
  readonly room?: string;
  /** Share of the uncertainty of all three figures that it explains, mean of the three, 0 to 1. */
  readonly share: number;
  /** What it alone moves each figure by, either way, about 10 to 90 %. */
  readonly moves: {
    readonly shortage_m3s: number;
    readonly predicted_K: number;
    readonly delivered_m3s: number;
  };
  /** How the share was found. */
  readonly method: 'squared rank correlation';
};

/** How the advice is worked out: seed of the draws, houses to solve (more narrow the scatter), and when to stop. */
export type GuidanceOptions = {
  readonly seed?: number;
  readonly houses?: number;
  /** Called behind each house that was solved. */
  readonly progress?: (done: number, of: number) => void;
  readonly stillWanted?: () => boolean | Promise<boolean>;
};

/** Things that explain less than this are left out: a sample of this size cannot tell them from nothing. */
const leastShare = 0.01;

const worstOf = ({ rooms }: Account): RoomStanding | undefined => {
  const short = ({ needed_m3s, delivered_m3s }: RoomStanding): number => delivered_m3s / needed_m3s;
  return rooms
    .filter(({ needed_m3s }) => needed_m3s > 0)
    .reduce<RoomStanding | undefined>(
      (worst, room) => (worst && short(worst) <= short(room) ? worst : room),
      undefined,
    );
};

const figuresOf = (solved: Account, room: string | undefined) => {
  const standing = solved.rooms.find((each) => each.room === room);
  return {
    shortage_m3s: standing ? standing.needed_m3s - standing.delivered_m3s : 0,
    predicted_K: standing?.predicted_C ?? 0,
    delivered_m3s: solved.house.delivered_m3s,
  };
};

type Drawn = {
  readonly sample: Sample;
  /** What was drawn less what is stated, summed by thing to measure and, within it, by field. */
  readonly deviations: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly paths: ReadonlyMap<string, readonly string[]>;
};

/**
 * One house out of what is uncertain: typed ranges as they are typed, other values by how they are known. One
 * assumption made of many places is wrong in all of them alike; what was looked at place by place errs place by place.
 */
const drawing = (groupOf: (path: string) => Group | undefined, uniform: () => number): Drawn => {
  const shared = new Map<string, number>();
  const deviations = new Map<string, Map<string, number>>();
  const paths = new Map<string, string[]>();
  const drawn = (path: string, known: Unranged, valueAt: (z: number) => number): number => {
    const group = groupOf(path);
    if (!group) return known.value;
    const field = path.slice(path.lastIndexOf('/') + 1);
    const key = `${group.id} ${field} ${known.value}`;
    const isAssumed = known.howKnown === 'assumed';
    const z = (isAssumed ? shared.get(key) : undefined) ?? normalFrom(uniform);
    if (isAssumed) shared.set(key, z);
    const value = valueAt(z);
    if (value === known.value) return value;
    const sums = deviations.get(group.id) ?? new Map<string, number>();
    sums.set(field, (sums.get(field) ?? 0) + (value - known.value) / weightOf(path, known));
    deviations.set(group.id, sums);
    paths.set(group.id, [...(paths.get(group.id) ?? []), path]);
    return value;
  };
  const sample: Sample = Object.assign(
    (path: string, range: Parameters<Sample>[1], known: Unranged) =>
      drawn(path, known, (z) => rangeValue(range, z)),
    {
      unranged: (path: string, known: Unranged): number => {
        const row = inputAt(path);
        if (!row || (known.derived && !row.derived)) return known.value;
        return drawn(path, known, (z) => spreadValue(row, known, z));
      },
    },
  );
  return { sample, deviations, paths };
};

/** Leak flows add up as they are: that is what a test reads. Everything else adds up in parts of its own value. */
const weightOf = (path: string, known: Unranged): number =>
  /\/(leaks|leakage)\//.test(path) || known.value === 0 ? 1 : Math.abs(known.value);

/**
 * What to measure next, the most telling first. Houses are drawn out of every uncertain input and solved in full; the
 * variance of the worst room's shortage and temperature and of the air delivered to the house is attributed to things
 * that can be measured, to first order, by the squared rank correlation with the summed deviation of each. Spreads of
 * values without a range are of the table of uncertainties. The same question gives the same answer; undefined when it
 * is no longer wanted.
 */
export const guidance = async (
  job: Job,
  stateId: string,
  mode: Mode,
  { seed = 1, houses = 100, progress, stillWanted = () => true }: GuidanceOptions = {},
): Promise<readonly GuidanceItem[] | undefined> => {
  const stated = account(surveyOf(job, stateId), mode);
  const room = worstOf(stated)?.room;
  const groupOf = grouping(stated.survey, room);
  const known = new Map<string, Group | undefined>();
  const remembered = (path: string): Group | undefined => {
    if (!known.has(path)) known.set(path, groupOf(path));
    return known.get(path);
  };
  const uniform = seededRandom(seed);
  const inputs: Drawn['deviations'][] = [];
  const outputs: ReturnType<typeof figuresOf>[] = [];
  let paths: Drawn['paths'] = new Map();
  while (outputs.length < houses) {
    if (!(await stillWanted())) return undefined;
    const drawn = drawing(remembered, uniform);
    outputs.push(figuresOf(account(surveyOf(job, stateId, drawn.sample), mode, stated), room));
    inputs.push(drawn.deviations);
    paths = drawn.paths;
    progress?.(outputs.length, houses);
  }
  const groups = new Map([...known.values()].flatMap((group) => (group ? [[group.id, group] as const] : [])));
  const figures = ['shortage_m3s', 'predicted_K', 'delivered_m3s'] as const;
  const values = Object.fromEntries(
    figures.map((figure) => [figure, outputs.map((output) => output[figure])]),
  ) as Record<(typeof figures)[number], number[]>;
  /** Each field of a thing explains its own share; together they never explain more than all. */
  const shareOf = (id: string, output: readonly number[]): number => {
    const fields = new Set(inputs.flatMap((deviations) => [...(deviations.get(id)?.keys() ?? [])]));
    const sum = [...fields].reduce(
      (total, field) =>
        total +
        explainedShare(
          inputs.map((deviations) => deviations.get(id)?.get(field) ?? 0),
          output,
        ),
      0,
    );
    return Math.min(1, sum);
  };
  return [...paths]
    .map(([id, fields]): GuidanceItem => {
      const shares = figures.map((figure) => shareOf(id, values[figure]));
      const move = (i: number): number =>
        ninetiethPercentile * Math.sqrt(shares[i]!) * standardDeviation(values[figures[i]!]);
      return {
        ...groups.get(id)!,
        paths: fields,
        ...(room !== undefined && { room }),
        share: shares.reduce((sum, share) => sum + share, 0) / shares.length,
        moves: { shortage_m3s: move(0), predicted_K: move(1), delivered_m3s: move(2) },
        method: 'squared rank correlation',
      };
    })
    .filter(({ share }) => share >= leastShare)
    .sort((a, b) => b.share - a.share);
};
