import { describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import type { AirSystem } from '../survey/types.ts';
import { spreadLeakage } from './spread-leakage.ts';

const system: AirSystem = {
  ...smallHouse.systems[0]!,
  spreadLeakage: [
    { side: 'supply', flow25_m3s: 0.05, exponent: 0.6 },
    { side: 'return', flow25_m3s: 0.03, exponent: 0.65 },
  ],
};
const silent = (...ids: string[]): AirSystem => ({
  ...system,
  parts: system.parts.map((part) => (ids.includes(part.id) ? { ...part, leaks: [] } : part)),
});
const total = (spread: ReturnType<typeof spreadLeakage>, exponent: number) =>
  [...spread.values()]
    .flat()
    .filter((leak) => leak.exponent === exponent)
    .reduce((sum, leak) => sum + leak.flow25_m3s, 0);

describe('a whole-system test', () => {
  it('is spread whole, side by side, over the silent parts', () => {
    const spread = spreadLeakage(silent('trunk', 'run-hall', 'return-run'));
    expect([...spread.keys()].sort()).toEqual(['return-run', 'run-hall', 'trunk']);
    expect(total(spread, 0.6)).toBeCloseTo(0.05, 12);
    expect(total(spread, 0.65)).toBeCloseTo(0.03, 12);
  });

  it('falls on all parts when none is silent', () => {
    const spread = spreadLeakage(system);
    expect(spread.size).toBe(system.parts.length);
    expect(total(spread, 0.6)).toBeCloseTo(0.05, 12);
  });

  it('finds flex leaking at its ends only, rigid duct along its wall too', () => {
    const spread = spreadLeakage(silent('trunk', 'run-hall'));
    expect(spread.get('run-hall')!.map((leak) => leak.at)).toEqual(['start', 'end']);
    expect(spread.get('trunk')!.map((leak) => leak.at)).toEqual(['start', 'along']);
  });

  it('shares by length of joint', () => {
    const spread = spreadLeakage(silent('run-hall', 'run-living'));
    const start_m3s = (part: string) => spread.get(part)![0]!.flow25_m3s;
    expect(start_m3s('run-living') / start_m3s('run-hall')).toBeCloseTo(0.203 / 0.102, 10);
  });
});
