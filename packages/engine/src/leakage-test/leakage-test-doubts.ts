import { type Doubt, doubt } from '../readings/doubt.ts';
import type { AirSystem } from '../survey/types.ts';
import type { UnitSystem } from '../units/dimension.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import type { LeakageSheet, LeakageTestResult } from './types.ts';

/** Standard deviations from which a difference is no accident. */
const clearly = 2;

/**
 * Where tests of one system contradict each other beyond their accuracy, or follow no law of leaks: what leaks to
 * outdoors is part of the total, one side is part of both, both sides together leak at least as much as the whole
 * (each is closed off by a barrier that leaks too), and a rough-in leaves out boots that the finished ducts have.
 */
export function leakageTestDoubts(
  system: AirSystem,
  tests: readonly LeakageTestResult[],
  units: UnitSystem,
): readonly Doubt[] {
  const show = ({ fit }: LeakageTestResult) => formatQuantity(fit.flow25_m3s, 'airflow', units);
  return [
    ...exponentDoubts(system, tests),
    ...partDoubts(system, tests, show),
    ...sumDoubts(system, tests, show),
  ];
}

const named = ({ to, side, stage }: LeakageSheet): string =>
  `${to === 'total' ? 'total leakage' : 'leakage to outdoors'}${side === 'both' ? '' : ` of the ${side} side`}, ${stage}`;

function exponentDoubts(system: AirSystem, tests: readonly LeakageTestResult[]): readonly Doubt[] {
  return tests.flatMap(({ sheet, fit }) => {
    if (fit.exponentStanding !== 'impossible' && fit.exponentStanding !== 'unlikely') return [];
    return [
      doubt(
        fit.exponentStanding,
        [sheet.id],
        `${system.name}, ${named(sheet)}`,
        `the points give an exponent of ${fit.exponent.toFixed(2)}`,
        'one of 0.5 to 0.75 for leaks of ducts',
        'Repeat the test; look for a slipped hose, a wrong ring or range, wind, or a mask that lets go as pressure rises.',
      ),
    ];
  });
}

/** Pairs of which the first can not leak more than the second. */
const isPartOf = (part: LeakageSheet, whole: LeakageSheet): boolean => {
  const sameStage = part.stage === whole.stage;
  const byPlace = part.to === 'outdoors' && whole.to === 'total' && part.side === whole.side;
  const bySide = part.to === whole.to && part.side !== 'both' && whole.side === 'both';
  const byBoth = part.to === 'outdoors' && whole.to === 'total' && whole.side === 'both';
  if (sameStage) return byPlace || bySide || byBoth;
  return (
    part.stage.startsWith('rough-in') &&
    whole.stage === 'after construction' &&
    part.to === whole.to &&
    part.side === whole.side
  );
};

function partDoubts(
  system: AirSystem,
  tests: readonly LeakageTestResult[],
  show: (test: LeakageTestResult) => string,
): readonly Doubt[] {
  return tests.flatMap((part) =>
    tests.flatMap((whole) => {
      if (!isPartOf(part.sheet, whole.sheet) || !exceeds([part], [whole])) return [];
      const before =
        part.sheet.stage === whole.sheet.stage ? 'part of it' : 'the same ducts before the boots';
      return [
        doubt(
          'contradicts another',
          [part.sheet.id, whole.sheet.id],
          `${system.name}, ${named(part.sheet)}`,
          `${show(part)} at 25 Pa, more than the ${show(whole)} of ${named(whole.sheet)}`,
          `at most as much, as this is ${before}`,
          'Read both again: same masks, house pressure steady, and the ring or range that belongs to the flow.',
        ),
      ];
    }),
  );
}

function sumDoubts(
  system: AirSystem,
  tests: readonly LeakageTestResult[],
  show: (test: LeakageTestResult) => string,
): readonly Doubt[] {
  return tests.flatMap((whole) => {
    if (whole.sheet.side !== 'both') return [];
    const side = (wanted: 'supply' | 'return') =>
      tests.find(
        ({ sheet }) =>
          sheet.side === wanted && sheet.to === whole.sheet.to && sheet.stage === whole.sheet.stage,
      );
    const [supply, back] = [side('supply'), side('return')];
    if (!supply || !back || !exceeds([whole], [supply, back])) return [];
    return [
      doubt(
        'contradicts another',
        [whole.sheet.id, supply.sheet.id, back.sheet.id],
        `${system.name}, ${named(whole.sheet)}`,
        `${show(whole)} at 25 Pa, more than ${show(supply)} and ${show(back)} of the two sides together`,
        'at most their sum, as a barrier between the sides leaks too',
        'See that the air handler itself was in one of the two tests, and read again.',
      ),
    ];
  });
}

/** Whether the first leak more than the second together, beyond what the errors of both allow. */
const exceeds = (more: readonly LeakageTestResult[], less: readonly LeakageTestResult[]): boolean => {
  const sum = (tests: readonly LeakageTestResult[]) =>
    tests.reduce((total, { fit }) => total + fit.flow25_m3s, 0);
  const errors = [...more, ...less].map(({ fit }) => fit.flow25_m3s * fit.relativeError);
  return sum(more) - sum(less) > clearly * Math.hypot(...errors);
};
