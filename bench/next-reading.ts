import { type CandidateReading, nextReading } from '@airledger/engine';
import { calibratedDemo } from './calibrated-demo.ts';
import { type Line, limited } from './line.ts';
import { callTime } from './measure.ts';

const operating = {
  fan: 'cooling',
  doors: 'as surveyed',
  registers: 'open',
  filter: 'in',
  side: 'both',
} as const;

/** Forty readings that could be taken next in the first demo house, ranked for the first repair. */
export function nextReadingBench(): Line[] {
  const { survey, readings, calibration } = calibratedDemo();
  const candidates = survey.systems[0]!.parts.flatMap(({ id, side, terminal }): CandidateReading[] =>
    side === 'supply' && terminal
      ? [
          {
            id: `boot-${id}`,
            subject: { kind: 'part static', part: id, at: 'end' },
            setup: operating,
            accuracy: 0.6,
            minutes: 3,
          },
          {
            id: `takeoff-${id}`,
            subject: { kind: 'part static', part: id, at: 'start' },
            setup: operating,
            accuracy: 1.5,
            minutes: 8,
          },
          {
            id: `hood-${id}`,
            subject: { kind: 'terminal flow', terminal: terminal.id, hood: 'powered' },
            setup: operating,
            accuracy: 0.003,
            minutes: 2,
            setUp: { name: 'hood', minutes: 4 },
          },
          {
            id: `pan-${id}`,
            subject: { kind: 'pressure pan', terminal: terminal.id },
            setup: { ...operating, fan: 'off', housePressure_Pa: -50 },
            accuracy: 0.2,
            minutes: 1.5,
            setUp: { name: 'blower door', minutes: 20 },
          },
        ]
      : [],
  ).slice(0, 40);
  const rank = () =>
    nextReading(survey, readings, calibration, candidates, { goal: { kind: 'first repair' } });
  rank();
  return [limited(`${candidates.length} candidates ranked`, callTime(rank, 3) / 1e6, 's', 'most', 3)];
}
