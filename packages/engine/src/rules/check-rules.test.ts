import { beforeAll, describe, expect, it } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { account } from '../account/account.ts';
import type { Account } from '../account/types.ts';
import type { AirSystem, DuctPart, Fact, LeakageTest, Mode, Survey } from '../survey/types.ts';
import { toSi } from '../units/dimension.ts';
import { checkRules } from './check-rules.ts';
import type { Check } from './types.ts';

let solved: Record<Mode, Account>;
beforeAll(() => {
  solved = { heating: account(smallHouse, 'heating'), cooling: account(smallHouse, 'cooling') };
});

const system = smallHouse.systems[0]!;
const withSystem = (over: Partial<AirSystem>): Survey => ({
  ...smallHouse,
  systems: [{ ...system, ...over }],
});
const withParts = (change: (part: DuctPart) => DuctPart): Survey =>
  withSystem({ parts: system.parts.map(change) });
const allInside = (edition: string): Survey => ({
  ...smallHouse,
  zones: smallHouse.zones.map((zone) => ({ ...zone, insideEnvelope: true })),
  code: { ...smallHouse.code, edition },
});
const test = (over: Partial<LeakageTest>): LeakageTest => ({
  id: 'test',
  system: 'main',
  stage: 'after construction',
  place: 'total',
  side: 'both',
  flow25_m3s: 0.01,
  howKnown: 'measured',
  ...over,
});
const tested = (edition: string, ...tests: Partial<LeakageTest>[]): Survey => ({
  ...smallHouse,
  code: { ...smallHouse.code, edition },
  leakageTests: tests.map(test),
});
/** Leakage at 25 Pa that is so many cfm per 100 ft² of the small house's floor. */
const per100 = (cfm: number) =>
  toSi('airflowPerArea', cfm, 'cfm/100 ft²') * smallHouse.house.conditionedFloorArea_m2;
const find = (survey: Survey, id: string, accounts = solved): Check =>
  checkRules(survey, accounts).find((check) => check.id === id)!;
const fact = (over: Partial<Fact>): Fact => ({
  typed: 'R-8',
  howKnown: 'read off',
  defaulted: false,
  ...over,
});
const insulated = (label: number, over: Partial<Fact>): Survey => ({
  ...withParts((part) => ({ ...part, insulation_m2KW: toSi('resistance', label, 'R') })),
  facts: Object.fromEntries(
    system.parts.map(({ id }) => [`systems/main/parts/${id}/insulation`, fact(over)]),
  ),
});

describe('code leakage', () => {
  const leakage = (survey: Survey) => find(survey, 'code-leakage-main');

  it('cannot tell without a test, and says which would settle it', () => {
    const check = leakage(smallHouse);
    expect(check.result).toBe('cannot tell');
    expect(check.value).toBeUndefined();
    expect(check.evidence).toContain('A test of total leakage');
  });

  it('passes at the limit and fails above it', () => {
    expect(leakage(tested('IECC 2018', { flow25_m3s: per100(4) * 0.9999 })).result).toBe('pass');
    const fails = leakage(tested('IECC 2018', { flow25_m3s: per100(5) }));
    expect(fails.result).toBe('fail');
    expect(fails.margin).toBeCloseTo(fails.limit! - fails.value!, 12);
    expect(fails.remedy).toBeDefined();
  });

  it.each(['estimated', 'assumed'] as const)('takes no word for a test: %s', (howKnown) => {
    expect(leakage(tested('IECC 2018', { flow25_m3s: per100(1), howKnown })).result).toBe('cannot tell');
  });

  it('holds the test as found against the house as found only', () => {
    const found = tested('IECC 2018', { stage: 'as found', flow25_m3s: per100(9) });
    expect(leakage(found).result).toBe('fail');
    for (const state of ['as-specified', 'As built']) {
      const later = leakage({ ...found, state });
      expect(later.result).toBe('cannot tell');
      expect(later.evidence).toContain('before the changes');
    }
  });

  it('takes rough-in limits for rough-in tests', () => {
    const stage = 'rough-in without air handler';
    expect(leakage(tested('IECC 2018', { stage, flow25_m3s: per100(3.5) })).result).toBe('fail');
    expect(leakage(tested('IECC 2009', { stage, flow25_m3s: per100(3.5) })).result).toBe('pass');
  });

  it('lets the test after construction overrule the rough-in', () => {
    const rough = { id: 'rough', stage: 'rough-in with air handler', flow25_m3s: per100(2) } as const;
    expect(leakage(tested('IECC 2018', rough, { flow25_m3s: per100(5) })).result).toBe('fail');
  });

  it('accepts leakage to outdoors in 2009 only', () => {
    const total = { id: 'total', flow25_m3s: per100(14) };
    const outdoors = { place: 'outdoors', flow25_m3s: per100(7) } as const;
    expect(leakage(tested('IECC 2009', total, outdoors)).result).toBe('pass');
    expect(leakage(tested('IECC 2009', total)).result).toBe('cannot tell');
    expect(leakage(tested('IECC 2018', total, outdoors)).result).toBe('fail');
  });

  it('knows that leakage to outdoors is part of the total', () => {
    expect(leakage(tested('IECC 2018', { place: 'outdoors', flow25_m3s: per100(5) })).result).toBe('fail');
    expect(leakage(tested('IECC 2018', { place: 'outdoors', flow25_m3s: per100(1) })).result).toBe(
      'cannot tell',
    );
    expect(leakage(tested('IECC 2009', { flow25_m3s: per100(7) })).result).toBe('pass');
  });

  it('adds tests of one side each', () => {
    const sides = (each: number) =>
      leakage(
        tested(
          'IECC 2018',
          { id: 'a', side: 'supply', flow25_m3s: per100(each) },
          { id: 'b', side: 'return', flow25_m3s: per100(each) },
        ),
      );
    expect(sides(1.9).result).toBe('pass');
    expect(sides(2.1).result).toBe('fail');
  });

  it('lets the sides add up to a little more than the whole, as split tests do', () => {
    const tests = tested(
      'IECC 2018',
      { id: 'a', side: 'supply', flow25_m3s: per100(5) },
      { id: 'b', side: 'return', flow25_m3s: per100(5) },
      { flow25_m3s: per100(9.8) },
    );
    expect(leakage(tests).result).toBe('fail');
    expect(leakage(tests).value! / leakage(tests).limit!).toBeCloseTo(9.8 / 4, 9);
  });

  it('does not judge by two tests on both sides of the limit', () => {
    const near = tested('IECC 2018', { id: 'a', flow25_m3s: per100(3.9) }, { flow25_m3s: per100(4.1) });
    expect(leakage(near).result).toBe('cannot tell');
  });

  it('does not judge by tests that contradict each other', () => {
    const odd = leakage(
      tested('IECC 2018', { id: 'a', flow25_m3s: per100(3) }, { place: 'outdoors', flow25_m3s: per100(6) }),
    );
    expect(odd.result).toBe('cannot tell');
  });

  it('exempts ducts inside the envelope up to 2018 and asks for a test since 2021', () => {
    expect(leakage(allInside('IECC 2018')).result).toBe('exempt');
    expect(leakage(allInside('IECC 2021')).result).toBe('cannot tell');
    const survey = { ...allInside('IECC 2021'), leakageTests: [test({ flow25_m3s: per100(7) })] };
    expect(leakage(survey).result).toBe('pass');
  });

  it('cannot tell for an edition that is not on file', () => {
    expect(find(tested('IECC 1998', {}), 'code-main').result).toBe('cannot tell');
  });
});

describe('code insulation', () => {
  const attic = (survey: Survey) => find(survey, 'code-insulation-main-attic-supply-r8');

  it('passes a label that was read and fails a low one', () => {
    expect(attic(insulated(8, {})).result).toBe('pass');
    const low = attic(insulated(4.2, {}));
    expect(low.result).toBe('fail');
    expect(low.remedy).toContain('R-8');
  });

  it.each([
    ['a default', { defaulted: true, howKnown: 'assumed' }],
    ['an assumption', { howKnown: 'assumed' }],
  ] as const)('never judges by %s', (_, over) => {
    expect(attic(insulated(8, over)).result).toBe('cannot tell');
    expect(attic(insulated(4.2, over)).result).toBe('cannot tell');
  });

  it('fails by one part that is known, whatever the others are', () => {
    const survey = insulated(8, { defaulted: true });
    const part = 'run-bed-1';
    const mixed: Survey = {
      ...survey,
      systems: [
        {
          ...system,
          parts: survey.systems[0]!.parts.map((one) =>
            one.id === part ? { ...one, insulation_m2KW: 0 } : one,
          ),
        },
      ],
      facts: { ...survey.facts, [`systems/main/parts/${part}/insulation`]: fact({ howKnown: 'measured' }) },
    };
    expect(attic(mixed).result).toBe('fail');
    expect(attic(mixed).value).toBe(0);
  });

  it('takes the metric label for the same insulation', () => {
    const metric = withParts((part) => ({ ...part, insulation_m2KW: 1.4 }));
    expect(attic(metric).result).toBe('pass');
  });

  it('says so when sources disagree and the answer hangs on it', () => {
    const between = find(insulated(6, {}), 'code-insulation-main-attic-return-r8');
    expect(between.result).toBe('cannot tell');
    expect(between.evidence).toContain('Sources disagree');
    expect(find(insulated(4.2, {}), 'code-insulation-main-attic-return-r8').result).toBe('fail');
  });

  it('asks less of small ducts', () => {
    const section = { shape: 'round', diameter_m: toSi('size', 2.5, 'in') } as const;
    const survey = withParts((part) => ({ ...part, section, insulation_m2KW: toSi('resistance', 6, 'R') }));
    expect(find(survey, 'code-insulation-main-attic-supply-r6').result).toBe('pass');
  });

  it('exempts ducts inside the envelope', () => {
    expect(find(allInside('IECC 2021'), 'code-insulation-main').result).toBe('exempt');
  });
});

describe('building cavities', () => {
  const cavity = (edition: string, id: string) =>
    find(
      {
        ...withParts((part) => (part.id === id ? { ...part, buildingCavity: true } : part)),
        code: { ...smallHouse.code, edition },
      },
      `code-cavity-main-${id}`,
    ).result;

  it('2009 allows them on the return side, later editions nowhere', () => {
    expect(cavity('IECC 2009', 'return-run')).toBe('pass');
    expect(cavity('IECC 2009', 'trunk')).toBe('fail');
    expect(cavity('IECC 2018', 'return-run')).toBe('fail');
  });

  it('cannot tell when a material is a default', () => {
    const key = 'systems/main/parts/trunk/material';
    const survey = { ...smallHouse, facts: { [key]: fact({ defaulted: true }) } };
    expect(find(survey, 'code-cavity-main').result).toBe('cannot tell');
    expect(find(smallHouse, 'code-cavity-main').result).toBe('pass');
  });
});

describe('project leakage', () => {
  const share = (side: string, ...tests: Partial<LeakageTest>[]) =>
    find(tested('IECC 2018', ...tests), `specification-leakage-main-${side}`);
  const fan = () => solved.cooling.systems[0]!.fanFlow_m3s;

  it('needs a test of the finished ducts', () => {
    expect(share('supply').result).toBe('cannot tell');
    const rough = { stage: 'rough-in with air handler', side: 'supply', flow25_m3s: 1e-4 } as const;
    expect(share('supply', rough).result).toBe('cannot tell');
  });

  it('judges each side by its own test', () => {
    const supply = { side: 'supply', flow25_m3s: 0.019 * fan() } as const;
    const back = { id: 'b', side: 'return', flow25_m3s: 0.021 * fan() } as const;
    expect(share('supply', supply, back).result).toBe('pass');
    expect(share('supply', supply, back).value).toBeCloseTo(0.019, 9);
    expect(share('return', supply, back).result).toBe('fail');
  });

  it('can not tell while the limit lies in the range of a reading, and shows its figure where it can', () => {
    const read = (middle: number, spread: number) =>
      share('supply', {
        side: 'supply',
        stage: 'as found',
        flow25_m3s: middle * fan(),
        reading: {
          low_m3s: (middle - spread) * fan(),
          high_m3s: (middle + spread) * fan(),
          when: '2025-07-15 09:12',
        },
      });
    expect([0.017, 0.019, 0.021, 0.023].map((middle) => read(middle, 0.002).result)).toEqual([
      'pass',
      'cannot tell',
      'cannot tell',
      'fail',
    ]);
    expect(read(0.023, 0.002).value).toBeCloseTo(0.023, 9);
    expect(read(0.017, 0.002).value).toBeCloseTo(0.017, 9);
    expect(read(0.017, 0.0017).evidence).toContain('measured by the reading "test" of 2025-07-15, ± 11 %');
  });

  it('asks for the pressure of a reading that does not say it', () => {
    const reading = { low_m3s: 1e-4, high_m3s: 1e-4 };
    const check = share('supply', {
      id: 'ducts',
      side: 'supply',
      flow25_m3s: 1e-4,
      howKnown: 'assumed',
      reading,
    });
    expect(check.result).toBe('cannot tell');
    expect(check.evidence).toContain('"ducts" does not say at which pressure');
  });

  it('lets a tight whole pass both sides, and a leaky whole settle neither', () => {
    expect(share('return', { flow25_m3s: 0.015 * fan() }).result).toBe('pass');
    expect(share('return', { flow25_m3s: 0.05 * fan() }).result).toBe('cannot tell');
  });
});

describe('trade checks', () => {
  it('finds the fastest duct', () => {
    const check = find(smallHouse, 'trade-supply-flex-velocity-main');
    const run = solved.cooling.air.elements.flatMap((element, i) =>
      element.kind === 'duct' && element.of === 'run-hall'
        ? [Math.abs(solved.cooling.air.solution.flow_m3s[i]!) / ((Math.PI * 0.102 ** 2) / 4)]
        : [],
    );
    expect(check.result).toBe('fail');
    expect(check.value).toBeGreaterThanOrEqual(Math.max(...run));
    expect(check.evidence).toContain('run-hall');
  });

  it('keeps airflow per ton between two ends', () => {
    const flow = solved.cooling.systems[0]!.fanFlow_m3s;
    const cooling = (cfmPerTon: number) =>
      find(
        withSystem({
          equipment: {
            ...system.equipment,
            cooling: {
              ...system.equipment.cooling!,
              total_W: flow / toSi('airflowPerPower', cfmPerTon, 'cfm/ton'),
            },
          },
        }),
        'trade-airflow-per-ton-main',
      );
    expect(cooling(400).result).toBe('pass');
    expect(cooling(340).result).toBe('fail');
    expect(cooling(460).result).toBe('fail');
    expect(cooling(460).margin).toBeCloseTo(toSi('airflowPerPower', -10, 'cfm/ton'), 12);
  });

  it('holds the temperature rise in the nameplate window', () => {
    const { leavesAt_C, returnsAt_C } = solved.heating.systems[0]!;
    const rise = leavesAt_C - returnsAt_C;
    const check = (low: number, high: number) =>
      find(
        withSystem({
          equipment: {
            ...system.equipment,
            heating: { ...system.equipment.heating!, rise_K: { low, high } },
          },
        }),
        'trade-temperature-rise-main',
      ).result;
    expect(check(rise - 1, rise + 1)).toBe('pass');
    expect(check(rise + 1, rise + 5)).toBe('fail');
  });

  it('does not judge by a nameplate that is a default', () => {
    const id = 'trade-external-static-main';
    const key = 'systems/main/airHandler/fan/ratedStatic';
    expect(find(smallHouse, id).result).toBe('pass');
    const guessed = find({ ...smallHouse, facts: { [key]: fact({ defaulted: true }) } }, id);
    expect(guessed.result).toBe('cannot tell');
    expect(guessed.evidence).toContain('nameplate');
  });

  it('fails a shut room by the account and only doubts an open one', () => {
    expect(find(smallHouse, 'trade-room-pressure-bed-1').result).toBe('fail');
    const doors = (shutArea_m2: number) =>
      find(
        { ...smallHouse, doors: smallHouse.doors.map((door) => ({ ...door, open: true, shutArea_m2 })) },
        'trade-room-pressure-bed-1',
      );
    expect(doors(0.01).result).toBe('cannot tell');
    expect(doors(0.2).result).toBe('pass');
    expect(find(smallHouse, 'trade-room-pressure-living')).toBeUndefined();
  });

  it('finds bare ducts that sweat, but does not judge by a default', () => {
    const bare = insulated(0, {});
    const humid = (survey: Survey) => {
      const heat = solved.cooling.heat;
      const floating = { ...heat.floating, humidityRatio: { ...heat.floating.humidityRatio, attic: 0.019 } };
      const cooling = { ...solved.cooling, heat: { ...heat, floating } };
      return find(survey, 'trade-condensation-main', { ...solved, cooling }).result;
    };
    expect(humid(bare)).toBe('fail');
    expect(humid(insulated(8, {}))).toBe('pass');
    expect(humid(insulated(8, { defaulted: true }))).toBe('cannot tell');
  });
});

describe('openings', () => {
  it('fail where air can not come back, and say nothing where it can', () => {
    const system = smallHouse.systems[0]!;
    const parts = system.parts.map(({ terminal, ...part }) =>
      part.side === 'return' ? part : { ...part, terminal },
    );
    const closed = { ...smallHouse, systems: [{ ...system, parts }] };
    expect(find(closed, 'trade-openings-return-main').result).toBe('fail');
    expect(find(smallHouse, 'trade-openings-return-main')).toBeUndefined();
  });
});

describe('combustion safety', () => {
  const house = { ...smallHouse, house: { ...smallHouse.house, combustionInside: true } };
  /** Every room at one pressure to outdoors. */
  const at = (pressure_Pa: number, survey: Survey = house) => {
    const lower = (one: Account): Account => {
      const { nodes, solution } = one.air;
      const pressures = solution.pressure_Pa.map((was, n) => (nodes[n]!.kind === 'room' ? pressure_Pa : was));
      return { ...one, air: { ...one.air, solution: { ...solution, pressure_Pa: pressures } } };
    };
    return find(survey, 'safety-depressurisation', {
      heating: lower(solved.heating),
      cooling: lower(solved.cooling),
    });
  };

  it('warns when the house is depressurised and never clears it', () => {
    expect(at(-6).result).toBe('fail');
    expect(at(-1).result).toBe('cannot tell');
    expect(at(2).result).toBe('cannot tell');
    expect(at(2).evidence).toContain('licensed');
  });

  it('leaves the question open when nobody said whether there is a burner', () => {
    const { combustionInside: _, ...unsaid } = smallHouse.house;
    expect(at(-6, { ...smallHouse, house: unsaid }).result).toBe('cannot tell');
  });

  it('is silent without a combustion appliance', () => {
    expect(find(smallHouse, 'safety-depressurisation')).toBeUndefined();
  });
});

it('gives every check an id of its own, a clause, a source and evidence', () => {
  const checks = checkRules(
    { ...smallHouse, house: { ...smallHouse.house, combustionInside: true } },
    solved,
  );
  expect(new Set(checks.map(({ id }) => id)).size).toBe(checks.length);
  for (const check of checks) {
    for (const text of [check.clause, check.source, check.evidence, check.title]) expect(text).not.toBe('');
    if (check.result === 'pass' && check.value !== undefined) expect(check.margin).toBeGreaterThanOrEqual(0);
    if (check.result === 'fail' && check.value !== undefined) expect(check.margin).toBeLessThan(0);
  }
});

describe('one design day alone', () => {
  const ids = (checks: readonly Check[]) => checks.map(({ id }) => id);
  const heating = { ...system.equipment.heating!, rise_K: { low: 15, high: 30 } };
  const house = withSystem({ equipment: { ...system.equipment, heating } });
  const whole = () => checkRules(house, solved);

  it('leaves out what only the other day can tell, and nothing else', () => {
    const byCooling = ids(checkRules(house, { cooling: solved.cooling }));
    const byHeating = ids(checkRules(house, { heating: solved.heating }));
    expect(ids(whole()).filter((id) => !byCooling.includes(id))).toEqual(['trade-temperature-rise-main']);
    expect(ids(whole()).filter((id) => !byHeating.includes(id))).toEqual([
      'specification-leakage-main-supply',
      'specification-leakage-main-return',
      'trade-airflow-per-ton-main',
      'trade-condensation-main',
    ]);
  });

  it('never finds worse than both days find', () => {
    for (const mode of ['heating', 'cooling'] as const)
      for (const check of checkRules(house, { [mode]: solved[mode] })) {
        const both = whole().find(({ id }) => id === check.id)!;
        if (check.margin !== undefined) expect(check.margin).toBeGreaterThanOrEqual(both.margin!);
      }
  });
});
