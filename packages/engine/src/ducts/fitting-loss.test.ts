import { describe, expect, it } from 'vitest';
import {
  coefficientOfLength,
  damperCoefficient,
  fittingLosses,
  lengthOfCoefficient,
} from './fitting-loss.ts';

describe('fittings', () => {
  it('turn a length into a coefficient and back', () => {
    const coefficient = coefficientOfLength(10.668, 0.0234, 0.2032);
    expect(coefficient).toBeCloseTo(1.2285, 4);
    expect(lengthOfCoefficient(coefficient, 0.0234, 0.2032)).toBeCloseTo(10.668, 10);
  });

  it('add up by place, may be negative and count', () => {
    const fitting = (kind: string, lossCoefficient: number, count = 1) => ({
      id: kind,
      kind,
      name: kind,
      count,
      lossCoefficient,
    });
    const losses = fittingLosses(
      [fitting('takeoff', 0.8), fitting('elbow', 0.2, 3), fitting('boot', 1.1), fitting('wye', -0.3)],
      0.02,
      0.2,
    );
    expect(losses.near).toBeCloseTo(0.5, 12);
    expect(losses.along).toBeCloseTo(0.6, 12);
    expect(losses.far).toBeCloseTo(1.1, 12);
  });

  it('a damper closes without a jump, and never quite', () => {
    let before = damperCoefficient(1);
    expect(before).toBeCloseTo(0.18, 2);
    for (let open = 0.99; open >= -1e-9; open -= 0.01) {
      const now = damperCoefficient(open);
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
    expect(damperCoefficient(0)).toBeGreaterThan(1e6);
    expect(damperCoefficient(0)).toBeLessThan(1e7);
  });
});
