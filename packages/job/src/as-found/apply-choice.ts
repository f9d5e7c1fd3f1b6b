import { formatQuantity, type Section, toSi } from '@airledger/engine';
import { openingFlow_m3s } from '@airledger/engine/ducts/opening-flow';
import { sectionGeometry } from '@airledger/engine/ducts/section-geometry';
import { parseSection } from '../compound.ts';
import { EditRefused, setMany } from '../edit/index.ts';
import type { Job, JobPart } from '../schema/job-schema.ts';
import type { JobLeak } from '../schema/system-schema.ts';
import { valueAt } from '../states/job-path.ts';
import type { Typed } from '../typed.ts';
import {
  type AsFoundChoice,
  type AsFoundSet,
  asFoundChoices,
  choicesAt,
  fits,
  tagsAt,
} from './as-found-choices.ts';

/** Pressure at which leaks are stated. */
const test_Pa = 25;
const density_kgm3 = 1.2;
/** Greatest leak that the job file takes. */
const most_m3s = toSi('airflow', 3000, 'cfm');
/** A hole, other than a crack, passes air with the root of the pressure. */
const holeExponent = '0.5';

/** Flow at 25 Pa through a share of a duct's own section: Cd·A·√(2Δp/ρ). */
export const openEndFlow25_m3s = (section: Section, share: number): number =>
  Math.min(most_m3s, openingFlow_m3s(share * sectionGeometry(section).area_m2, test_Pa, density_kgm3));

const seen = (value: string, { words }: AsFoundChoice): Typed => ({ value, known: 'estimated', note: words });

type Leaking = Extract<AsFoundSet, { leak: unknown }>;

const flowText = (set: Leaking, part: JobPart): string => {
  if ('flow' in set) return set.flow;
  const section = parseSection(part.section);
  if ('problem' in section) throw new EditRefused(`The size "${part.section}" ${section.problem}.`);
  const flow = (share: number): string =>
    formatQuantity(openEndFlow25_m3s(section, share), 'airflow', 'ip').replace(' cfm', '');
  return `${flow(set.opening.share)} cfm (${flow(set.opening.low)} to ${flow(set.opening.high)} cfm)`;
};

/** The leak of this place becomes what was seen; the others of the record stay. */
const withLeak = (
  leaks: readonly JobLeak[],
  set: Leaking,
  part: JobPart,
  choice: AsFoundChoice,
): JobLeak[] => {
  const {
    tightness: _,
    flow: _f,
    exponent: _e,
    ...before
  } = leaks.find(({ place }) => place === set.leak) ?? {
    place: set.leak,
  };
  const leak: JobLeak = {
    ...before,
    flow: seen(flowText(set, part), choice),
    ...('opening' in set && { exponent: holeExponent }),
  };
  const at = leaks.findIndex(({ place }) => place === set.leak);
  return at < 0 ? [...leaks, leak] : leaks.with(at, leak);
};

const withFitting = (
  fittings: NonNullable<JobPart['fittings']>,
  { fitting, lossCoefficient }: Extract<AsFoundSet, { fitting: unknown }>,
  choice: AsFoundChoice,
): NonNullable<JobPart['fittings']> => {
  const others = fittings.filter((each) => (typeof each === 'string' ? each : each.name) !== fitting);
  return [
    ...others,
    lossCoefficient === undefined
      ? fitting
      : { name: fitting, kind: 'crushed', lossCoefficient: seen(lossCoefficient, choice) },
  ];
};

const applySet = (job: Job, path: string, set: AsFoundSet, choice: AsFoundChoice): Job => {
  const record = valueAt(job, path) as JobPart;
  if ('leak' in set)
    return setMany(job, [`${path}/leaks`], withLeak(record.leaks ?? [], set, record, choice));
  if ('fitting' in set)
    return setMany(job, [`${path}/fittings`], withFitting(record.fittings ?? [], set, choice));
  // A filter that nobody mentioned is mentioned now.
  const holder = `${path}/${set.field}`.replace(/\/[^/]+$/, '');
  const held = valueAt(job, holder) === undefined ? setMany(job, [holder], {}) : job;
  return setMany(
    held,
    [`${path}/${set.field}`],
    set.value === undefined ? set.word : seen(set.value, choice),
  );
};

/**
 * The house with something that was seen written into the part or air handler at `path`: ranges of numbers, known as
 * estimated, with the words as their note. Choosing again replaces what the choice before has written in the same fields.
 * Refused when the choice does not fit what stands there.
 */
export const applyChoice = (job: Job, path: string, choiceId: string): Job => {
  const choice = asFoundChoices.find(({ id }) => id === choiceId);
  if (!choice) throw new EditRefused(`There is no choice "${choiceId}".`);
  if (!choicesAt(job, path).includes(choice))
    throw new EditRefused(`"${choice.words}" does not fit what stands at ${path}.`);
  const tags = tagsAt(job, path);
  return choice.sets
    .filter((set) => fits(set, tags))
    .reduce((next, set) => applySet(next, path, set, choice), job);
};
