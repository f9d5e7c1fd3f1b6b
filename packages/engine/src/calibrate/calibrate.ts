import type { Reading } from '../readings/types.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { surveyWith } from './calibrated-survey.ts';
import type {
  Alike,
  Calibration,
  ContradictedReading,
  Knowledge,
  LeakFinding,
  LeakGroupFinding,
  LikelySlip,
  Range,
  RestrictionFinding,
  Totals,
} from './calibration.ts';
import { figureId, figuresOf, type LeakGroup, leakGroups } from './calibration-targets.ts';
import { type Check, contradicted, explainedBy } from './doubts.ts';
import { inferDefects } from './draw-defects.ts';
import { fitReadings } from './fit.ts';
import { type ForwardModel, forwardModel, startPressures } from './forward-model.ts';
import { likelySlips } from './likely-slips.ts';
import { modelOfSurvey, type SurveyModel } from './model-of-survey.ts';
import { posteriorSample } from './posterior-sample.ts';
import { widePrior } from './prior.ts';
import { defaultSearch, isLeak, type WeightedHypothesis } from './search-defects.ts';
import { type Mixtures, mixturesOfDraws, mixturesOfHypotheses, narrowing, rangeOf } from './summarise.ts';
import { isRun, leakName, partName } from './survey-parameters.ts';
import { withReadings } from './survey-readings.ts';
import type { CalibrationModel } from './types.ts';

export type CalibrateOptions = {
  /** The first system when absent. */
  readonly system?: string;
  /** Mode of the fan in use; that of the readings, else cooling, when absent. */
  readonly mode?: Mode;
  /** Most defects looked for at once; 6 when absent. */
  readonly depth?: number;
  /** Houses drawn from what the readings allow; 200 when absent, 0 for ranges of the hypotheses only. */
  readonly draws?: number;
  readonly seed?: number;
};

/** How far the work has come, and the first answer as soon as there is one. */
export type CalibrateProgress = {
  readonly stage: 'fit' | 'defects' | 'draws';
  /** 0 to 1 of all. */
  readonly share: number;
  /** Ranges before any draw: present once, when the defects have been looked for. */
  readonly first?: Calibration;
};

/** Everything a further question about a calibrated house needs. */
export type CalibratedModel = {
  readonly survey: SurveyModel;
  readonly model: CalibrationModel;
  readonly forward: ForwardModel;
  readonly groups: readonly LeakGroup[];
};

const defaultDraws = 200;
/** Times that the laws are laid against the house as fitted. */
const relayings = 2;

/**
 * Where the air goes, from the survey and whatever was read, two readings or forty.
 *
 * A generator, so that a worker can stop or show progress between steps: `next()` works for some milliseconds and
 * yields; the return value is the calibration. `calibrate` runs it to its end.
 *
 * Stages: most probable house without defects; readings that contradict the rest; search for defects; draws.
 * @throws RangeError for an unknown system
 */
export function* calibrateSteps(
  survey: Survey,
  readings: readonly Reading[],
  options: CalibrateOptions = {},
): Generator<CalibrateProgress, Calibration> {
  const { calibrated, unused } = modelOfReadings(survey, readings, options);
  yield { stage: 'fit', share: 0.05 };
  const { model, forward } = calibrated;
  const { checks, doubted } = contradicted(model);
  // A reading that the rest contradicts is kept on the sheet but does not bend the house.
  const sound = doubted.length > 0 ? without(model, doubted) : model;
  const soundForward = doubted.length > 0 ? forwardModel(sound) : forward;
  yield { stage: 'fit', share: 0.1 };
  const search = inferDefects(soundForward, searchOf(options));
  let step = search.next();
  while (!step.done) {
    yield { stage: 'defects', share: 0.1 + 0.4 * step.value };
    step = search.next();
  }
  let hypotheses = step.value;
  // The other story: the reading is right, and a run truly is restricted or a place truly leaks.
  const kept = doubted.length > 0 ? searchWith(forward, options) : hypotheses;
  const stories = new Map(
    doubted.map((check) => [check.observation, explainedBy(model, kept, check.observation)]),
  );
  const believed = doubted.filter(({ observation }) => stories.get(observation)! > 0.5);
  let used: ForwardModel = soundForward;
  if (believed.length > 0) {
    const bad = doubted.filter((check) => !believed.includes(check));
    used = bad.length > 0 ? forwardModel(without(model, bad)) : forward;
    hypotheses = bad.length > 0 ? searchWith(used, options) : kept;
  }
  const figures = figuresOf(calibrated.survey, calibrated.groups);
  const wide = fitReadings(
    used,
    widePrior(used.model),
    { z: new Float64Array(used.unknowns), pressures: startPressures(used) },
    { mostIterations: 30 },
  );
  const narrowed = narrowing(used, figures, wide);
  const report = (mixtures: Mixtures, draws: readonly Float64Array[]): Calibration => ({
    ...summary(calibrated, hypotheses, mixtures, narrowed),
    checks: checks.map(({ observation, residual, foretold, sd, checked }) => ({
      reading: observation,
      residual,
      foretold,
      foretoldSd: sd,
      checked: checked > 0.1,
    })),
    doubts: doubted.map((check) =>
      doubtOf(calibrated, readings, check, stories.get(check.observation)!, kept),
    ),
    unused,
    drawnTotals: draws.length > 0 ? drawnTotals(mixtures) : {},
    draws,
  });
  const first = report(mixturesOfHypotheses(used, figures, hypotheses), []);
  const count = options.draws ?? defaultDraws;
  yield { stage: 'defects', share: 0.5, first };
  if (count === 0) return first;
  const sampling = posteriorSample(used, hypotheses, count, options.seed ?? 1);
  let drawn = sampling.next();
  while (!drawn.done) {
    yield { stage: 'draws', share: 0.5 + (0.5 * drawn.value) / count };
    drawn = sampling.next();
  }
  const draws = drawn.value;
  return report(
    mixturesOfDraws(used, figures, draws),
    draws.map(({ theta }) => theta),
  );
}

/** `calibrateSteps` to its end. */
export function calibrate(
  survey: Survey,
  readings: readonly Reading[],
  options: CalibrateOptions = {},
): Calibration {
  const steps = calibrateSteps(survey, readings, options);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** The survey with a calibrated house written back: the most probable one, or one of its draws. */
export const calibratedSurvey = (survey: Survey, calibration: Calibration, draw?: number): Survey =>
  surveyWith(
    survey,
    calibration.system,
    draw === undefined ? calibration.probable : calibration.draws[draw]!,
  );

/** Estimator's model of a survey with its readings, laid against the house as the readings have it. */
export function modelOfReadings(
  survey: Survey,
  readings: readonly Reading[],
  options: CalibrateOptions,
): { readonly calibrated: CalibratedModel; readonly unused: Calibration['unused'] } {
  const systemId = options.system ?? survey.systems[0]?.id ?? '';
  const running = readings.map(({ setup }) => setup.fan).find((fan) => fan !== 'off');
  const mode = options.mode ?? (running === 'heating' ? 'heating' : 'cooling');
  let laid = modelOfSurvey(survey, systemId, mode);
  let found = withReadings(laid, readings);
  for (let round = 0; round < relayings && found.model.observations.length > 0; round++) {
    const forward = forwardModel(found.model);
    const fit = fitReadings(
      forward,
      widePrior(found.model),
      { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) },
      { mostIterations: 12 },
    );
    laid = modelOfSurvey(survey, systemId, mode, surveyWith(survey, systemId, fit.theta));
    found = withReadings(laid, readings);
  }
  return {
    calibrated: {
      survey: laid,
      model: found.model,
      forward: forwardModel(found.model),
      groups: leakGroups(laid),
    },
    unused: found.unused,
  };
}

const without = (model: CalibrationModel, checks: readonly Check[]): CalibrationModel => ({
  ...model,
  observations: model.observations.filter(({ id }) => !checks.some(({ observation }) => observation === id)),
});

const searchOf = ({ depth }: CalibrateOptions) => ({
  ...defaultSearch,
  ...(depth === undefined ? {} : { depth }),
});

function searchWith(forward: ForwardModel, options: CalibrateOptions): WeightedHypothesis[] {
  const search = inferDefects(forward, searchOf(options));
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

function summary(
  { survey, model, groups }: CalibratedModel,
  hypotheses: readonly WeightedHypothesis[],
  mixtures: Mixtures,
  narrowed: ReadonlyMap<string, number>,
): Omit<Calibration, 'checks' | 'doubts' | 'unused' | 'drawnTotals' | 'draws'> {
  const { parameters, spots, system } = survey;
  const at = parameters.at;
  const range = (id: string, as: (value: number) => number): Range => rangeOf(mixtures.get(id)!, as);
  const maybe = <K extends string>(key: K, id: string, as: (value: number) => number) =>
    (mixtures.has(id) ? { [key]: range(id, as) } : {}) as { readonly [key in K]?: Range };
  const known = (id: string) => {
    const share = narrowed.get(id) ?? 1;
    return { narrowed: share, knowledge: knowledgeOf(share) };
  };
  const probability = (parameterIds: readonly number[]) =>
    hypotheses.reduce(
      (sum, { defects, weight }) => sum + (parameterIds.some((k) => defects.includes(k)) ? weight : 0),
      0,
    );
  const share = (logit: number) => 1 / (1 + Math.exp(-logit));
  const same = (value: number) => value;
  const leaks = spots.map(
    (spot): LeakFinding => ({
      place: spot.id,
      kind: spot.kind,
      ...(spot.part === undefined ? {} : { part: spot.part }),
      ...(spot.run === undefined ? {} : { run: spot.run }),
      side: spot.side,
      flow25_m3s: range(figureId.leak25(spot.id), Math.exp),
      ...maybe('outdoors_m3s', figureId.leakOut(spot.id), Math.exp),
      ...maybe('outdoorShare', figureId.share(spot.id), share),
      ...known(figureId.leak25(spot.id)),
      defectProbability: probability([at(leakName(spot))]),
    }),
  );
  const byId = new Map(spots.map((spot) => [spot.id, spot]));
  const groupFindings = groups.map(
    (group): LeakGroupFinding => ({
      ...group,
      flow25_m3s: range(figureId.group25(group.id), Math.exp),
      ...maybe('outdoors_m3s', figureId.groupOut(group.id), Math.exp),
      ...known(figureId.group25(group.id)),
      defectProbability: probability(group.spots.map((id) => at(leakName(byId.get(id)!)))),
    }),
  );
  const restrictions = system.parts.filter(isRun).map((part): RestrictionFinding => {
    const [damper, slack, register] = (['damper', 'slack', 'register'] as const).map((kind) =>
      partName(kind, part.id),
    ) as [string, string, string];
    const of = (id: string) => range(figureId.unknown(id), Math.exp);
    return {
      run: part.id,
      terminal: part.terminal!.id,
      factor: range(figureId.restriction(part.id), Math.exp),
      ...known(figureId.restriction(part.id)),
      defectProbability: probability([at(damper), at(slack), at(register)]),
      parts: {
        damper: of(damper),
        slack: of(slack),
        register: of(register),
        defectProbability: {
          damper: probability([at(damper)]),
          slack: probability([at(slack)]),
          register: probability([at(register)]),
        },
      },
    };
  });
  const unknown = (id: string) => range(figureId.unknown(id), Math.exp);
  return {
    system: system.id,
    mode: survey.mode,
    leaks,
    groups: groupFindings,
    restrictions,
    flows: system.parts.flatMap(({ terminal }) =>
      terminal && mixtures.has(figureId.terminal(terminal.id))
        ? [
            {
              terminal: terminal.id,
              room: terminal.room,
              flow_m3s: range(figureId.terminal(terminal.id), same),
              knowledge: known(figureId.terminal(terminal.id)).knowledge,
            },
          ]
        : [],
    ),
    totals: Object.fromEntries(
      Object.entries(totalFigures).flatMap(([total, [id, as]]) =>
        mixtures.has(id) ? [[total, range(id, as)]] : [],
      ),
    ) as unknown as Totals,
    house: {
      filter: unknown('filter'),
      coil: unknown('coil'),
      fanSpeed: unknown('fan speed'),
      envelope: unknown('envelope'),
      doors: survey.survey.doors.map(({ id }) => ({
        door: id,
        factor: unknown(`door ${id}`),
        knowledge: known(figureId.unknown(`door ${id}`)).knowledge,
      })),
    },
    alike: alikePlaces(model, hypotheses),
    unknowns: model.parameters.map(({ id }) => id),
    probable: likeliest(hypotheses).fit.theta,
    hypotheses: hypotheses.map(({ defects, fit, weight }) => ({
      defects: defects.map((k) => model.parameters[k]!.id),
      probability: weight,
      theta: fit.theta,
      z: fit.z,
    })),
  };
}

/** Figures that totals of the report come from, with how their values are kept. */
const totalFigures = {
  total25_m3s: [figureId.total25, Math.exp],
  outdoors25_m3s: [figureId.outdoors25, Math.exp],
  supply25_m3s: [figureId.supply25, Math.exp],
  return25_m3s: [figureId.return25, Math.exp],
  supplyOutdoors_m3s: [figureId.supplyOut, Math.exp],
  returnOutdoors_m3s: [figureId.returnOut, Math.exp],
  fanFlow_m3s: [figureId.fan, (value: number) => value],
} as const;

const drawnTotals = (mixtures: Mixtures): Calibration['drawnTotals'] =>
  Object.fromEntries(
    Object.entries(totalFigures).flatMap(([total, [id, as]]) => {
      const parts = mixtures.get(id);
      return parts ? [[total, Float64Array.from(parts, ({ mean }) => as(mean))]] : [];
    }),
  );

const knowledgeOf = (share: number): Knowledge =>
  share > 0.8 ? 'not measured' : share > 0.5 ? 'vague' : 'measured';

/** The set of defects with the largest posterior of its own; a drawn set may weigh more because it stands for others. */
const likeliest = (hypotheses: readonly WeightedHypothesis[]): WeightedHypothesis =>
  hypotheses.reduce((best, one) => (one.logWeight > best.logWeight ? one : best));

/** Places whose exchange in the likeliest hypothesis costs less than a factor 3. */
function alikePlaces(model: CalibrationModel, hypotheses: readonly WeightedHypothesis[]): Alike[] {
  const top = likeliest(hypotheses);
  const name = (k: number) => model.parameters[k]!.id;
  const alike: Alike[] = [];
  for (const other of hypotheses) {
    const odds = Math.exp(other.logWeight - top.logWeight);
    if (other === top || other.defects.length !== top.defects.length || odds * 3 < 1) continue;
    const mine = top.defects.filter((k) => !other.defects.includes(k));
    const theirs = other.defects.filter((k) => !top.defects.includes(k));
    if (mine.length !== 1 || theirs.length !== 1) continue;
    alike.push({
      places: [name(mine[0]!), name(theirs[0]!)],
      probabilities: [1 / (1 + odds), odds / (1 + odds)],
    });
  }
  return alike;
}

function doubtOf(
  { survey, model }: CalibratedModel,
  readings: readonly Reading[],
  check: Check,
  explained: number,
  hypotheses: readonly WeightedHypothesis[],
): ContradictedReading {
  const reading = readings.find(({ id }) => id === check.observation)!;
  const offset = model.observations.find(({ id }) => id === check.observation)!.value - reading.value;
  const own: Check = { ...check, foretold: check.foretold - offset };
  const slips: LikelySlip[] = likelySlips(reading, own);
  const { subject } = reading;
  const terminal = 'terminal' in subject ? subject.terminal : undefined;
  const run = survey.system.parts.find((part) => part.terminal?.id === terminal)?.id;
  if (run !== undefined) {
    const parts = model.parameters.flatMap((parameter, k) =>
      parameter.run === run && parameter.defect && !isLeak(parameter) ? [k] : [],
    );
    const probability = hypotheses.reduce(
      (sum, { defects, weight }) => sum + (defects.some((k) => parts.includes(k)) ? weight : 0),
      0,
    );
    if (probability > 0.05)
      slips.push({
        kind: 'restricted run',
        part: run,
        probability: Math.min(probability, Math.max(explained, 0)),
      });
  }
  return {
    reading: reading.id,
    residual: check.residual,
    foretold: own.foretold,
    foretoldSd: check.sd,
    slips,
  };
}
