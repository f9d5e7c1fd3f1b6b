import { describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import type { DuctPart, Leak } from '../survey/types.ts';
import { joinPosition_m, partLayout } from './part-layout.ts';

const trunk = smallHouse.systems[0]!.parts.find((part) => part.id === 'trunk')!;
const child = (joinsAt_m?: number): DuctPart => ({ ...trunk, id: 'child', joins: 'trunk', joinsAt_m });
const along: Leak = { ...trunk.leaks[0]!, at: 'along' };
const end: Leak = { ...along, at: 'end' };

describe('cuts of a part', () => {
  it('are where other parts join, once each and in order', () => {
    const { cuts_m } = partLayout(trunk, [child(5), child(2), child(5.0001), child()], []);
    expect(cuts_m).toEqual([0, 2, 5, 8]);
  });

  it('stop at the last use of a capped part', () => {
    expect(partLayout(trunk, [child(2)], []).cuts_m).toEqual([0, 2]);
    expect(partLayout(trunk, [child(2)], [end]).cuts_m).toEqual([0, 2, 8]);
    expect(partLayout(trunk, [], []).cuts_m).toEqual([0]);
  });

  it('halve a part that leaks along and has no joint inside', () => {
    const { cuts_m, alongShares } = partLayout(trunk, [child()], [along]);
    expect(cuts_m).toEqual([0, 4, 8]);
    expect(alongShares).toEqual([0, 1, 0]);
  });

  it('share a leak along by nearness', () => {
    const { cuts_m, alongShares } = partLayout(trunk, [child(2), child(6), child()], [along]);
    expect(cuts_m).toEqual([0, 2, 6, 8]);
    expect(alongShares).toEqual([0, 0.5, 0.5, 0]);
  });

  it('keep the loss of a part without length', () => {
    const collar = { ...trunk, length_m: 0 };
    expect(partLayout(collar, [child()], [along])).toEqual({ cuts_m: [0, 0], alongShares: [1, 0] });
  });

  it('hold a joint inside its part', () => {
    expect(joinPosition_m(trunk, child(20))).toBe(8);
    expect(joinPosition_m(trunk, child(-1))).toBe(0);
    expect(joinPosition_m(trunk, child())).toBe(8);
  });
});
