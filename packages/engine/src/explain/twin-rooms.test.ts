import { describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { account } from '../account/account.ts';
import type { Account } from '../account/types.ts';
import type { DuctPart, Survey } from '../survey/types.ts';
import { explainImbalance } from './explain-imbalance.ts';
import type { RoomGroup } from './types.ts';
import { unevenGroups } from './uneven-groups.ts';

const [one, other]: readonly [RoomGroup, RoomGroup] = [
  { name: 'Bedroom 1', rooms: ['bed-1'] },
  { name: 'Bedroom 2', rooms: ['bed-2'] },
];

/** Perfect ducts but for the runs of two bedrooms, which are alike but for what is given. */
function twins(of: Partial<DuctPart>, ofOther: Partial<DuctPart>): Survey {
  const system = smallHouse.systems[0]!;
  const perfect = (part: DuctPart): DuctPart => ({
    ...part,
    leaks: [],
    slack: 0.04,
    insulation_m2KW: 1e12,
    // Thick wrap still conducts around its corners: what both share is short.
    length_m: part.side === 'return' || part.role === 'plenum' ? 1e-6 : part.length_m,
  });
  const run = system.parts.find(({ id }) => id === 'run-bed-1')!;
  const { joinsAt_m: _, ...atPlenum } = { ...perfect(run), joins: 'supply-plenum', length_m: 6 };
  const bedroom = smallHouse.rooms.find(({ id }) => id === 'bed-1')!;
  const surfacesOf = (room: string) => smallHouse.surfaces.filter(({ inside }) => inside === room);
  return {
    ...smallHouse,
    rooms: smallHouse.rooms.map((room) =>
      room.id === 'bed-2' ? { ...bedroom, id: 'bed-2', name: 'Bedroom 2' } : room,
    ),
    surfaces: [
      ...smallHouse.surfaces.filter(({ inside }) => inside !== 'bed-2'),
      ...surfacesOf('bed-1').map((surface) => ({ ...surface, id: `${surface.id}-2`, inside: 'bed-2' })),
    ],
    doors: smallHouse.doors.map((door) => ({ ...door, open: true })),
    systems: [
      {
        ...system,
        airHandler: { ...system.airHandler, leaks: [], filter: { ...system.airHandler.filter, drop_Pa: 20 } },
        parts: system.parts.map((part) => {
          if (part.id === 'run-bed-1') return { ...atPlenum, ...of };
          if (part.id !== 'run-bed-2') return perfect(part);
          const terminal = { ...run.terminal!, id: part.terminal!.id, room: 'bed-2' };
          return { ...atPlenum, id: part.id, name: part.name, terminal, ...ofOther };
        }),
      },
    ],
  };
}

const standingOf = (house: Account, room: string) => house.rooms.find((one) => one.room === room)!;

describe.each(['heating', 'cooling'] as const)('two rooms alike but for one thing, %s', (mode) => {
  it('have no imbalance when nothing differs', () => {
    const house = account(twins({}, {}), mode);
    for (const of of ['air', 'heat'] as const) {
      const { difference, layout } = explainImbalance(house, of, one, other);
      expect(Math.abs(difference)).toBeLessThan(1e-9);
      expect(Math.abs(layout)).toBeLessThan(1e-9);
    }
  });

  it('walls: no air is lost, and heat differs by what the walls pass, each its own part', () => {
    const house = account(twins({ insulation_m2KW: 2 }, { insulation_m2KW: 0.4 }), mode);
    const [first, second] = [standingOf(house, 'bed-1'), standingOf(house, 'bed-2')];
    expect(first.delivered_m3s).toBeCloseTo(second.delivered_m3s, 9);
    expect(explainImbalance(house, 'air', one, other).causes).toEqual([]);
    const { shares, difference, causes, layout } = explainImbalance(house, 'heat', one, other);

    // By hand: T leaves = Ts + (T enters − Ts)·e^(−UA/ṁcp); what is lost, over the need of the room.
    const { floating, flow, specificHeat_JkgK } = house.heat;
    const set_C = house.loads.indoor.temperature_C;
    const sign = mode === 'heating' ? 1 : -1;
    const runOf = (run: string) => {
      const elements = house.air.elements.flatMap((element, e) => (element.of === run ? [e] : []));
      const e = elements.find((index) => house.air.elements[index]!.kind === 'terminal')!;
      const rate_WK = flow.mass_kgs[e]! * specificHeat_JkgK;
      const ua_WK = elements.reduce((sum, i) => sum + (house.air.elements[i]!.conductance_WK ?? 0), 0);
      const enters_C =
        floating.nodeTemperature_C[
          flow.upper[elements.find((i) => house.air.elements[i]!.kind === 'duct')!]!
        ]!;
      const around_C = floating.temperature_C.attic!;
      const lost_W =
        sign * floating.share * rate_WK * (1 - Math.exp(-ua_WK / rate_WK)) * (enters_C - around_C);
      const unlost_W = sign * floating.share * rate_WK * (enters_C - set_C);
      return { lost_W, unlost_W };
    };
    const [ofOne, ofOther] = [runOf('run-bed-1'), runOf('run-bed-2')];
    const need_W = first.load_W + first.forcedLoad_W;
    expect(second.load_W + second.forcedLoad_W).toBeCloseTo(need_W, 6);
    expect(shares[0]).toBeCloseTo((ofOne.unlost_W - ofOne.lost_W) / need_W, 6);
    expect(shares[1]).toBeCloseTo((ofOther.unlost_W - ofOther.lost_W) / need_W, 6);
    expect(difference).toBeGreaterThan(0.01);
    const part = (id: string) => causes.find((cause) => cause.id === id)!.share;
    expect(part('walls-bed-2')).toBeCloseTo(ofOther.lost_W / need_W, 6);
    expect(part('walls-bed-1')).toBeCloseTo(-ofOne.lost_W / need_W, 6);
    expect(Math.abs(layout)).toBeLessThan(1e-9);
    expect(causes[0]!.id).toBe('walls-bed-2');
    expect(unevenGroups(house).map(({ kind, of }) => `${kind} ${of}`)).toContain('rooms heat');
  });

  it('a damper: it makes the whole gap in air but for the difference in needs', () => {
    const open = { insulation_m2KW: 1, damper: 1 };
    const house = account(twins(open, { ...open, damper: 0.4 }), mode);
    const needs = [standingOf(house, 'bed-1'), standingOf(house, 'bed-2')].map((one) => one.needed_m3s);
    // With the damper open both get what both get in the house without one.
    const open_m3s = standingOf(account(twins(open, open), mode), 'bed-2').delivered_m3s;
    const air = explainImbalance(house, 'air', one, other);
    expect(air.difference).toBeGreaterThan(0.02);
    expect(air.causes.map(({ id }) => id)).toEqual(['restrictions-bed-2']);
    expect(air.layout).toBeCloseTo(open_m3s / needs[0]! - open_m3s / needs[1]!, 9);
    const shut_m3s = standingOf(house, 'bed-2').delivered_m3s;
    const taken = (open_m3s - shut_m3s) / needs[1]!;
    const leftToOther = (standingOf(house, 'bed-1').delivered_m3s - open_m3s) / needs[0]!;
    expect(air.causes[0]!.share).toBeCloseTo(taken + leftToOther, 9);
    expect(explainImbalance(house, 'heat', one, other).causes[0]!.id).toBe('restrictions-bed-2');
  });
});
