import type { AirSystem, Survey } from '../survey/types.ts';
import type { UnitSystem } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { type Doubt, doubt } from './doubt.ts';
import { subjectDimension, subjectName } from './subject-name.ts';
import type { Reading } from './types.ts';

/** Standard deviations from which a difference is no accident. */
const clearly = 3;

/** What readings of one state say against each other. */
export function crossDoubts(
  readings: readonly Reading[],
  survey: Survey,
  units: UnitSystem,
): readonly Doubt[] {
  return [
    ...repeats(readings, survey, units),
    ...survey.systems.flatMap((system) => [
      ...registersAgainstFan(readings, survey, system, units),
      ...pressuresInOrder(readings, survey, system),
      ...temperaturesInOrder(readings, survey, system, units),
    ]),
  ];
}

/** The same place read twice in the same condition. */
function repeats(readings: readonly Reading[], survey: Survey, units: UnitSystem): readonly Doubt[] {
  const seen = new Map<string, Reading>();
  return readings.flatMap((reading) => {
    const { id, subject, setup, value } = reading;
    const key = JSON.stringify([subject, setup]);
    const first = seen.get(key);
    if (!first) {
      seen.set(key, reading);
      return [];
    }
    const dimension = subjectDimension(subject);
    const show = (si: number) => formatQuantity(si, dimension, units);
    const agrees = Math.abs(value - first.value) <= clearly * Math.hypot(reading.accuracy, first.accuracy);
    return [
      doubt(
        agrees ? 'repeated' : 'contradicts another',
        [id, first.id],
        subjectName(survey, subject),
        agrees ? 'is read twice' : `${show(value)}, after ${show(first.value)}`,
        agrees ? 'one reading of a place and condition, or two meant as such' : `the same within accuracy`,
        agrees
          ? 'Both are used. Take one away if it was noted twice, or name the register that was meant.'
          : 'Read a third time, or name the register that was meant.',
      ),
    ];
  });
}

/** Registers of one side can not pass more air than the fan moves. */
function registersAgainstFan(
  readings: readonly Reading[],
  survey: Survey,
  system: AirSystem,
  units: UnitSystem,
): readonly Doubt[] {
  const fan = readings.find(({ subject }) => subject.kind === 'fan flow' && subject.system === system.id);
  if (!fan) return [];
  return (['supply', 'return'] as const).flatMap((side) => {
    const ids = new Set(
      system.parts.filter((part) => part.side === side).flatMap(({ terminal }) => terminal?.id ?? []),
    );
    const own = readings.filter(
      ({ subject, setup }) =>
        subject.kind === 'terminal flow' && ids.has(subject.terminal) && setup.fan === fan.setup.fan,
    );
    const sum = own.reduce((total, { value }) => total + value, 0);
    const error = Math.hypot(fan.accuracy, ...own.map(({ accuracy }) => accuracy));
    if (own.length === 0 || sum - fan.value <= clearly * error) return [];
    const largest = own.toSorted((a, b) => b.value - a.value)[0]!;
    return [
      doubt(
        'contradicts another',
        [fan.id, ...own.map(({ id }) => id)],
        subjectName(survey, fan.subject),
        `${formatQuantity(fan.value, 'airflow', units)}, less than the ${formatQuantity(sum, 'airflow', units)} of ${side} registers together`,
        'at least as much as its registers pass',
        `Read the fan flow again, and the largest register (${subjectName(survey, largest.subject)}).`,
      ),
    ];
  });
}

/** Along the air handler the fan is the only place where pressure rises. */
function pressuresInOrder(readings: readonly Reading[], survey: Survey, system: AirSystem): readonly Doubt[] {
  const at = (place: string) =>
    readings.find(
      ({ subject, setup }) =>
        subject.kind === 'system static' &&
        subject.system === system.id &&
        subject.place === place &&
        setup.fan !== 'off',
    );
  const pairs: readonly (readonly [low: string, high: string, why: string])[] = [
    ['after filter', 'return plenum', 'the filter takes pressure'],
    ...(system.airHandler.coilExternal
      ? ([['supply plenum', 'before coil', 'the coil takes pressure']] as const)
      : []),
  ];
  return pairs.flatMap(([low, high, why]) => {
    const [below, above] = [at(low), at(high)];
    if (!below || !above || below.setup.fan !== above.setup.fan) return [];
    if (below.value - above.value <= clearly * Math.hypot(below.accuracy, above.accuracy)) return [];
    return [
      doubt(
        'contradicts another',
        [below.id, above.id],
        subjectName(survey, below.subject),
        `${formatQuantity(below.value, 'pressure', 'si')}, above the ${formatQuantity(above.value, 'pressure', 'si')} ${high}`,
        `less than ${high}, as ${why}`,
        'Look whether the two places, or the hoses, are mixed up.',
      ),
    ];
  });
}

/** Air leaves a register no colder than the plenum made it while cooling, and no warmer while heating. */
function temperaturesInOrder(
  readings: readonly Reading[],
  survey: Survey,
  system: AirSystem,
  units: UnitSystem,
): readonly Doubt[] {
  const plenum = readings.find(
    ({ subject }) =>
      subject.kind === 'system temperature' &&
      subject.system === system.id &&
      subject.place === 'supply plenum',
  );
  if (!plenum || plenum.setup.fan === 'off') return [];
  const ids = new Set(
    system.parts.flatMap(({ side, terminal }) => (side === 'supply' && terminal ? [terminal.id] : [])),
  );
  const sign = plenum.setup.fan === 'cooling' ? 1 : -1;
  return readings.flatMap((reading) => {
    const { subject, setup, value, accuracy } = reading;
    if (subject.kind !== 'terminal temperature' || !ids.has(subject.terminal)) return [];
    if (setup.fan !== plenum.setup.fan) return [];
    if (sign * (plenum.value - value) <= clearly * Math.hypot(accuracy, plenum.accuracy)) return [];
    return [
      doubt(
        'contradicts another',
        [reading.id, plenum.id],
        subjectName(survey, subject),
        `${formatQuantity(value, 'temperature', units)}, beyond the ${formatQuantity(plenum.value, 'temperature', units)} of the supply plenum`,
        `${sign > 0 ? 'no colder' : 'no warmer'} than the plenum`,
        'Read both within a minute of each other, after ten minutes of running.',
      ),
    ];
  });
}
