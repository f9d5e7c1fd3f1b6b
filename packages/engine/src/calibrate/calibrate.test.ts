import { beforeAll, describe, expect, it } from 'vitest';
import { randomHouse } from '../../../../tests/fixtures/random-house.ts';
import { account } from '../account/account.ts';
import type { Account } from '../account/types.ts';
import type { Reading, ReadingSubject, TestSetup } from '../readings/types.ts';
import type { Survey } from '../survey/types.ts';
import { calibrate, calibratedSurvey, calibrateSteps } from './calibrate.ts';
import { surveyWith } from './calibrated-survey.ts';
import type { Calibration } from './calibration.ts';
import { modelOfSurvey } from './model-of-survey.ts';
import { type CandidateReading, nextReading } from './next-reading.ts';
import { probabilityPasses } from './probability-passes.ts';
import { withReadings } from './survey-readings.ts';

const cfm = 4.719474e-4;
const operating: TestSetup = {
  fan: 'cooling',
  doors: 'as surveyed',
  registers: 'open',
  filter: 'in',
  side: 'both',
};
const survey = randomHouse(21, {
  leakage25_cfm: { cabinet: 24, returnJoint: 4, returnDucts: 50, supplyJoint: 3, supplyDucts: 70 },
  fanFlow_cfm: [900, 1300],
  doorsOpen: true,
});
const system = survey.systems[0]!;
const registers = system.parts.flatMap(({ id, side, terminal }) =>
  side === 'supply' && terminal ? [{ run: id, terminal: terminal.id, room: terminal.room }] : [],
);
const shutRun = registers[1]!;

/** The surveyed house with one damper nearly shut, as the engine itself solves it. */
const trueHouse = (): Survey => {
  const { parameters } = modelOfSurvey(survey, system.id, 'cooling');
  const theta = Float64Array.from(parameters.list, ({ mean }) => mean);
  theta[parameters.at(`damper ${shutRun.run}`)] = Math.log(40);
  return surveyWith(survey, system.id, theta);
};

const readingsOf = ({ air, systems }: Account): Reading[] => {
  const [at] = air.systems;
  const reading = (id: string, subject: ReadingSubject, value: number, accuracy: number): Reading => ({
    id,
    subject,
    setup: operating,
    value,
    accuracy,
    state: 'as-found',
    path: `readings/${id}`,
  });
  return [
    reading(
      'fan',
      { kind: 'fan flow', system: system.id },
      systems[0]!.fanFlow_m3s,
      // As a flow plate's makers state it (7 % of the flow, from memory).
      0.07 * systems[0]!.fanFlow_m3s,
    ),
    reading(
      'supply-static',
      { kind: 'system static', system: system.id, place: 'supply plenum' },
      at!.supplyStatic_Pa,
      2,
    ),
    reading(
      'return-static',
      { kind: 'system static', system: system.id, place: 'return plenum' },
      at!.returnStatic_Pa,
      2,
    ),
    ...registers.map(({ terminal }) => {
      const e = air.elements.findIndex((one) => one.kind === 'terminal' && one.terminal === terminal);
      const flow = air.solution.flow_m3s[e]!;
      return reading(
        `flow-${terminal}`,
        { kind: 'terminal flow', terminal, hood: 'powered' },
        flow,
        0.05 * flow + 3 * cfm,
      );
    }),
  ];
};

describe('a house read with its fan on', () => {
  let truth: Account;
  let readings: Reading[];
  let calibration: Calibration;
  beforeAll(() => {
    truth = account(trueHouse(), 'cooling');
    readings = readingsOf(truth);
    calibration = calibrate(survey, readings, { draws: 40 });
  }, 60_000);

  it('finds the run that is shut and nothing to doubt', () => {
    const sure = calibration.restrictions.toSorted((a, b) => b.defectProbability - a.defectProbability);
    expect(sure[0]!.run).toBe(shutRun.run);
    expect(sure[0]!.defectProbability).toBeGreaterThan(0.9);
    expect(calibration.doubts).toEqual([]);
    expect(calibration.unused).toEqual([]);
  });

  it('writes back a house whose own solve gives the readings within their accuracy', () => {
    const again = readingsOf(account(calibratedSurvey(survey, calibration), 'cooling'));
    again.forEach(({ id, value }, i) => {
      expect(Math.abs(value - readings[i]!.value), id).toBeLessThan(1.5 * readings[i]!.accuracy);
    });
  });

  it('holds the true flows in its ranges, and says which leaks were not measured', () => {
    const held = calibration.flows.filter(({ terminal, flow_m3s }) => {
      const reading = readings.find(({ id }) => id === `flow-${terminal}`);
      return reading && flow_m3s.low <= reading.value && reading.value <= flow_m3s.high;
    });
    expect(held.length).toBeGreaterThanOrEqual(registers.length - 2);
    const takeoffs = calibration.leaks.filter(({ kind }) => kind === 'takeoff');
    expect(takeoffs.every(({ knowledge }) => knowledge === 'not measured')).toBe(true);
  });

  it('comes out the same again, step by step or at once', () => {
    const steps = calibrateSteps(survey, readings, { draws: 40 });
    let first: Calibration | undefined;
    let share = 0;
    let step = steps.next();
    for (; !step.done; step = steps.next()) {
      expect(step.value.share).toBeGreaterThanOrEqual(share);
      share = step.value.share;
      first = step.value.first ?? first;
    }
    expect(first?.draws).toEqual([]);
    expect(step.value.flows).toEqual(calibration.flows);
  });

  const spoilt = (id: string, factor: number) =>
    calibrate(
      survey,
      readings.map((reading) =>
        reading.id === id
          ? { ...reading, value: factor * reading.value, accuracy: Math.max(factor, 0.5) * reading.accuracy }
          : reading,
      ),
      { draws: 0, depth: 2 },
    );

  it('asks about a slipped hose, and keeps the house as the rest has it', () => {
    const { doubts, totals } = spoilt('supply-static', 0.05);
    expect(doubts.map(({ reading }) => reading)).toEqual(['supply-static']);
    expect(doubts[0]!.slips.map(({ kind }) => kind)).toContain('hose');
    const { low, high } = calibration.totals.fanFlow_m3s;
    expect(totals.fanFlow_m3s.middle).toBeGreaterThan(low);
    expect(totals.fanFlow_m3s.middle).toBeLessThan(high);
  });

  it('asks about a flow in a wrong unit, and names the unit', () => {
    const { doubts } = spoilt('fan', 1 / 2.119);
    expect(doubts.map(({ reading }) => reading)).toEqual(['fan']);
    const slip = doubts[0]!.slips.find(({ kind }) => kind === 'unit');
    expect(slip).toMatchObject({ shown: 'cfm', meant: 'L/s' });
  });

  it('says why a reading is of no use', () => {
    const stray: Reading = {
      ...readings[0]!,
      id: 'stray',
      subject: { kind: 'terminal flow', terminal: 'nowhere', hood: 'powered' },
    };
    const { unused } = calibrate(survey, [stray], { draws: 0, depth: 0 });
    expect(unused).toEqual([{ reading: 'stray', why: "no terminal 'nowhere'" }]);
  });

  it('with no reading at all gives the ranges of the survey', () => {
    const blank = calibrate(survey, [], { draws: 0 });
    expect(blank.groups.every(({ knowledge }) => knowledge === 'not measured')).toBe(true);
    expect(blank.totals.total25_m3s.low).toBeLessThan(blank.totals.total25_m3s.high / 2);
  });

  it('passes a higher limit more surely', () => {
    const { middle, high } = calibration.totals.total25_m3s;
    const at = (limit: number) => probabilityPasses(calibration, 'total25_m3s', limit);
    expect(at(middle)).toBeGreaterThan(0.35);
    expect(at(middle)).toBeLessThan(0.65);
    expect(at(high * 2)).toBe(1);
    expect(at(0)).toBe(0);
  });

  it('proposes for a room the reading of its own register before those of others', () => {
    const { terminal, room } = registers.at(-1)!;
    const unread = readings.filter(({ id }) => !id.startsWith('flow-'));
    const before = calibrate(survey, unread, { draws: 0 });
    const candidates = registers.map(
      (one): CandidateReading => ({
        id: one.terminal,
        subject: { kind: 'terminal flow', terminal: one.terminal, hood: 'powered' },
        setup: operating,
        accuracy: 0.003,
        minutes: 2,
        setUp: { name: 'hood', minutes: 4 },
      }),
    );
    const ranked = nextReading(survey, unread, before, candidates, { goal: { kind: 'room', room } });
    const own = registers.filter((one) => one.room === room).map((one) => one.terminal);
    expect(own).toContain(terminal);
    expect(own).toContain(ranked[0]!.reading);
    for (const { spread_m3s, expected_m3s, narrowing } of ranked) {
      expect(expected_m3s).toBeLessThanOrEqual(spread_m3s);
      expect(narrowing).toBeGreaterThanOrEqual(0);
      expect(narrowing).toBeLessThanOrEqual(1);
    }
  });
});

it('a flow of the fan at another speed has no part, and is told; at one speed for both it has', () => {
  const flow: Reading = {
    id: 'rise',
    subject: { kind: 'fan flow', system: system.id },
    setup: { ...operating, fan: 'heating' },
    value: 0.5,
    accuracy: 0.05,
    state: 'as-found',
    path: 'readings/rise',
  };
  const { fan } = system.airHandler;
  const used = (heating: typeof fan.tables.heating) => {
    const airHandler = { ...system.airHandler, fan: { ...fan, tables: { ...fan.tables, heating } } };
    const house = { ...survey, systems: [{ ...system, airHandler }] };
    const { model, unused } = withReadings(modelOfSurvey(house, system.id, 'cooling'), [flow]);
    return [model.observations.length, unused.map(({ why }) => why)];
  };
  expect(used(fan.tables.cooling)).toEqual([1, []]);
  const slower = fan.tables.cooling.map(([q, rise]) => [0.8 * q, rise] as const);
  expect(used(slower)).toEqual([0, [expect.stringContaining('ran at its heating speed')]]);
});
