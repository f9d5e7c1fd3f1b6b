import { describe, expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { standardDensity_kgm3 } from '../ducts/leakage-law.ts';
import { normalShare } from '../numerics/normal-share.ts';
import { leakageResults } from './leakage-results.ts';
import {
  ductSurfaceLimit,
  fanFlowLimit,
  floorAreaLimit,
  judgeLeakage,
  perDuctSurface,
  perFanFlow,
  perFloorArea,
} from './measured-leakage.ts';
import type { LeakageSheet } from './types.ts';

const system = smallHouse.systems[0]!;
const fans = { [system.id]: { flow_m3s: 0.5, relativeError: 0, source: 'measured' as const } };

const sheet = (id: string, flow25_m3s: number, more: Partial<LeakageSheet> = {}): LeakageSheet => ({
  id,
  system: system.id,
  to: 'total',
  side: 'both',
  stage: 'after construction',
  points: [8, 15, 25, 40].map((pressure_Pa) => ({
    pressure_Pa,
    flow_m3s: flow25_m3s * (pressure_Pa / 25) ** 0.6,
  })),
  instrumentError: 0.03,
  density_kgm3: standardDensity_kgm3,
  ...more,
});

const results = (...sheets: LeakageSheet[]) => leakageResults(smallHouse, sheets, fans, 'ip')[0]!;

describe('against limits', () => {
  const allowed = results(sheet('total', 0.05)).verdicts.find(({ id }) => id === 'code-total')!.allowed_m3s;
  test.each([
    [0.8, 'pass'],
    [0.98, 'too close to tell'],
    [1.02, 'too close to tell'],
    [1.2, 'fail'],
  ])('%f of what the code allows: %s', (share, result) => {
    const verdict = results(sheet('total', share * allowed)).verdicts.find(({ id }) => id === 'code-total')!;
    expect(verdict.judged!.result).toBe(result);
    expect(verdict.judged!.figureWithin).toBe(share <= 1);
    expect(verdict.judged!.passes).toBeCloseTo(normalShare(-Math.log(share) / 0.03), 6);
  });

  test('each side has the share of fan flow that the project allows it', () => {
    const tests = [sheet('supply', 0.008, { side: 'supply' }), sheet('return', 0.02, { side: 'return' })];
    const [supply, back] = results(...tests).verdicts.filter(({ per }) => per === 'fan flow');
    expect(supply!.allowed_m3s).toBeCloseTo(smallHouse.code.supplyLeakageLimit * 0.5, 10);
    expect([supply!.judged!.result, back!.judged!.result]).toEqual(['pass', 'fail']);
  });

  test('without the test that a limit asks for it is left open, with what would tell', () => {
    const { verdicts } = results(sheet('supply', 0.008, { side: 'supply' }));
    const total = verdicts.find(({ id }) => id === 'code-total')!;
    expect(total.judged).toBeUndefined();
    expect(total.evidence).toContain('would tell');
  });

  test('a rough-in says nothing of finished sides', () => {
    const rough = sheet('supply', 0.001, { side: 'supply', stage: 'rough-in with air handler' });
    expect(results(rough).verdicts.find(({ id }) => id === 'project-supply')!.judged).toBeUndefined();
  });
});

describe('tests against each other', () => {
  const kinds = (...sheets: LeakageSheet[]) => results(...sheets).doubts.map(({ readings }) => readings);
  test('to outdoors is part of the total, within accuracy', () => {
    expect(kinds(sheet('total', 0.1), sheet('out', 0.09, { to: 'outdoors' }))).toEqual([]);
    expect(kinds(sheet('total', 0.1), sheet('out', 0.105, { to: 'outdoors' }))).toEqual([]);
    expect(kinds(sheet('total', 0.1), sheet('out', 0.13, { to: 'outdoors' }))).toEqual([['out', 'total']]);
  });
  test('one side is part of both, and both together leak at least as much', () => {
    const side = (which: 'supply' | 'return', flow: number) => sheet(which, flow, { side: which });
    expect(kinds(sheet('total', 0.1), side('supply', 0.06), side('return', 0.05))).toEqual([]);
    expect(kinds(sheet('total', 0.1), side('supply', 0.13))).toEqual([['supply', 'total']]);
    expect(kinds(sheet('total', 0.15), side('supply', 0.06), side('return', 0.05))).toEqual([
      ['total', 'supply', 'return'],
    ]);
  });
  test('a rough-in leaks no more than the finished ducts', () => {
    const rough = sheet('rough', 0.1, { stage: 'rough-in with air handler' });
    expect(kinds(rough, sheet('final', 0.06))).toEqual([['rough', 'final']]);
  });
  test('an exponent that no leak has', () => {
    const odd = sheet('odd', 0.1, {
      points: [10, 25, 40].map((pressure_Pa) => ({ pressure_Pa, flow_m3s: 0.004 * pressure_Pa ** 1.3 })),
    });
    expect(results(odd).doubts[0]).toMatchObject({ kind: 'impossible', readings: ['odd'] });
  });
});

test('a limit of one measure can not be held against leakage of another', () => {
  const flow = { flow25_m3s: 0.05, relativeError: 0.03 };
  const onFloor = floorAreaLimit({ per: 'conditioned floor area', flow25_m3sm2: 0.0002 });
  const onDucts = ductSurfaceLimit({ per: 'duct surface', flow25_m3sm2: 0.0002 });
  expect(judgeLeakage(perFloorArea(flow, 200), onFloor).result).toBe('fail');
  expect(judgeLeakage(perDuctSurface(flow, 400), onDucts).result).toBe('pass');
  // @ts-expect-error a limit per duct surface for leakage per floor area
  judgeLeakage(perFloorArea(flow, 200), onDucts);
  // @ts-expect-error a limit per floor area for leakage per duct surface
  judgeLeakage(perDuctSurface(flow, 400), onFloor);
  // @ts-expect-error a share of fan flow for leakage per floor area
  judgeLeakage(perFloorArea(flow, 200), fanFlowLimit(0.02));
  expect(judgeLeakage(perFanFlow(flow, fans[system.id]!), fanFlowLimit(0.2)).result).toBe('pass');
});
