import { describe, expect, it } from 'vitest';
import fittings from '../../data/fittings.json' with { type: 'json' };
import materials from '../../data/materials.json' with { type: 'json' };

describe('tables of materials and fittings', () => {
  it.each([
    ['materials', materials],
    ['fittings', fittings],
  ])('%s: every row has its own name and a source', (_, rows) => {
    for (const row of rows) expect(row.source.length).toBeGreaterThan(10);
    expect(new Set(rows.map((row) => row.name)).size).toBe(rows.length);
  });

  it('roughness is between smooth plastic and sprayed lining', () => {
    for (const { roughness_m } of materials) {
      expect(roughness_m).toBeGreaterThan(1e-5);
      expect(roughness_m).toBeLessThan(5e-3);
    }
  });

  it('a fitting has one kind of loss', () => {
    for (const row of fittings) {
      const losses = ['lossCoefficient', 'equivalentLength_m', 'followsSplit'].filter((key) => key in row);
      expect(losses).toHaveLength(1);
    }
  });
});
