import { formatQuantity, type UnitSystem } from '@airledger/engine';
import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { subjectName } from '@airledger/engine/readings/subject-name';
import { burnerCaution } from '@airledger/job';
import {
  alikeWords,
  doubtQuestion,
  leakGroupName,
  leakPlaceName,
  notUsed,
  totalsOf,
  worthWords,
} from '@airledger/report/calibration-words';
import { fanFlowWords } from '@airledger/report/fan-flow-words';
import { nameOf } from '@airledger/report/place-names';
import { rangeText } from '@airledger/report/range-text';
import type { Found } from './calibrate.ts';
import { leakageTestText } from './leakage-test-text.ts';
import { paint } from './paint.ts';
import { left, right, table } from './table.ts';
import { wrap } from './wrap.ts';

/** What readings say of a house: results of tests, doubts, leaks by group then place, restrictions, totals. */
export const calibrationText = (found: Found, units: UnitSystem): string =>
  [
    header(found),
    ...leakageTestText(found.tests, found.survey, units),
    ...fanFlowText(found, units),
    ...typedDoubts(found),
    ...questions(found, units),
    ...nextText(found),
    leakText(found, units),
    restrictionText(found, units),
    totalsText(found.calibration, units),
    ...pressureText(found),
    ...unusedText(found),
  ].join('\n\n');

const indent = '      ';

const header = ({ survey, calibration, readings }: Found): string => {
  const system = survey.systems.find(({ id }) => id === calibration.system)!;
  return [
    paint('bold', `${survey.name} · ${survey.state} · ${system.name}`),
    `By ${readings.length} readings, ${calibration.doubts.length} of them left out as doubtful. Ranges hold 90 %.`,
  ].join('\n');
};

/** Fan flows that no instrument showed as they stand. */
const fanFlowText = ({ survey, readings }: Found, units: UnitSystem): readonly string[] => {
  const lines = readings.flatMap((reading) => {
    const words = fanFlowWords(reading, units);
    return words ? [wrap(`${subjectName(survey, reading.subject)} (${reading.id}): ${words}.`, '  ')] : [];
  });
  return lines.length === 0 ? [] : [`${paint('bold', 'Fan flow')}\n${lines.join('\n')}`];
};

const typedDoubts = ({ doubts }: Found): readonly string[] =>
  doubts.length === 0
    ? []
    : [
        `${paint('bold', 'To be looked at')}\n\n${doubts
          .map(({ kind, message }) => `  ${paint('yellow', kind.toUpperCase())}\n${wrap(message, indent)}`)
          .join('\n\n')}`,
      ];

const questions = ({ survey, readings, calibration }: Found, units: UnitSystem): readonly string[] =>
  calibration.doubts.length === 0
    ? []
    : [
        `${paint('bold', 'Readings that the others contradict')}\n\n${calibration.doubts
          .map((doubt) => {
            const reading = readings.find(({ id }) => id === doubt.reading)!;
            const { title, text, mayBe, remedy } = doubtQuestion(survey, reading, doubt, units);
            return [
              `  ${paint('yellow', title)} (${reading.id})`,
              ...[text, ...mayBe.map((words) => `It may be ${words}.`), remedy].map((line) =>
                wrap(line, indent),
              ),
            ].join('\n');
          })
          .join('\n\n')}`,
      ];

/** From this probability on a place is told apart from its group. */
const likely = 0.2;

const leakText = ({ survey, calibration }: Found, units: UnitSystem): string => {
  const rows = calibration.groups
    .toSorted((a, b) => b.flow25_m3s.middle - a.flow25_m3s.middle)
    .flatMap((group) => {
      const cells = (
        finding: Pick<typeof group, 'flow25_m3s' | 'outdoors_m3s' | 'knowledge' | 'defectProbability'>,
      ) => [
        rangeText(finding.flow25_m3s, 'airflow', units),
        finding.outdoors_m3s ? rangeText(finding.outdoors_m3s, 'airflow', units) : 'inside',
        formatQuantity(finding.defectProbability, 'ratio', units, 0),
        finding.knowledge,
      ];
      const places = calibration.leaks.filter(
        (leak) =>
          group.spots.includes(leak.place) && group.spots.length > 1 && leak.defectProbability >= likely,
      );
      return [
        [leakGroupName(survey, group), ...cells(group)],
        ...places.map((leak) => [`  ${leakPlaceName(survey, leak)}`, ...cells(leak)]),
      ];
    });
  const columns = [
    left('Leaks'),
    right('at 25 Pa'),
    right('beyond the envelope, running'),
    right('defect'),
    left('known'),
  ];
  const alike = calibration.alike.map((one) => alikeWords(survey, one));
  return [`${paint('bold', 'Leaks by group')}\n${table(columns, rows)}`, ...alike].join('\n');
};

const restrictionText = ({ survey, calibration }: Found, units: UnitSystem): string => {
  const name = nameOf(survey);
  const rows = calibration.restrictions
    .toSorted((a, b) => b.defectProbability - a.defectProbability || b.factor.middle - a.factor.middle)
    .map(({ run, terminal, factor, defectProbability, knowledge }) => {
      const flow = calibration.flows.find((one) => one.terminal === terminal);
      return [
        name(run),
        rangeText(factor, 'number', units, 1),
        formatQuantity(defectProbability, 'ratio', units, 0),
        flow ? rangeText(flow.flow_m3s, 'airflow', units) : '—',
        knowledge,
      ];
    });
  const columns = [
    left('Run'),
    right('resistance, × surveyed'),
    right('defect'),
    right('air it gets'),
    left('known'),
  ];
  return `${paint('bold', 'Runs')}\n${table(columns, rows)}`;
};

const totalsText = (calibration: Calibration, units: UnitSystem): string => {
  const rows = totalsOf(calibration).map(({ words, range }) => [words, rangeText(range, 'airflow', units)]);
  return table([left('In sum'), right('')], rows);
};

const pressureText = ({ pressures }: Found): readonly string[] =>
  pressures.length === 0
    ? []
    : [
        `${paint('bold', 'Pressures while the fan runs')}\n\n${pressures
          .map(({ title, text, remedy, source }) =>
            [`  ${title}`, wrap(`${text} ${remedy}`, indent), wrap(`(${source})`, indent)].join('\n'),
          )
          .join('\n\n')}`,
      ];

const unusedText = ({ survey, readings, calibration }: Found): readonly string[] => {
  const lines = notUsed(survey, readings, calibration);
  return lines.length === 0
    ? []
    : [
        `${paint('bold', 'Not used to find where the air goes')}\n${lines.map((line) => wrap(`${line}.`, '  ')).join('\n')}`,
      ];
};

const nextText = ({ survey, next }: Found): readonly string[] =>
  next.length === 0
    ? []
    : [
        `${paint('bold', 'To be read next')}\n${next
          .map(
            (one, i) =>
              `  ${i + 1}. ${subjectName(survey, one.subject)}: ${worthWords(one, one.narrowing, [])}`,
          )
          .join('\n')}`,
        ...beforeReading(next.map(({ subject }) => subject)),
      ];

const beforeReading = (subjects: Parameters<typeof burnerCaution>[0]): readonly string[] => {
  const caution = burnerCaution(subjects);
  return caution ? [`${paint('bold', caution.title)}\n${wrap(caution.text, '  ')}`] : [];
};
