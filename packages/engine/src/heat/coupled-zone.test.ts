import { expect, test } from 'vitest';
import type { Air, AirElement, AirNode } from '../air/types.ts';
import { balanceOver, evaluate, sensibleBalance, solveBalance } from './balance.ts';
import { carry, columnsOf, type Transfer } from './carry.ts';
import { directFlow } from './directed-flow.ts';
import type { HeatTerm } from './terms.ts';

/**
 * Ducts in an attic that they warm or cool themselves. The expected figures were solved outside this program, by
 * bracketing on the attic's temperature with the ducts written out element by element:
 * t_r = (1 − l_r)·t_in + l_r·t_z; t_rp = t_z + (t_r − t_z)·e^(−UA_r/C); t_sp = t_rp + E/C; t_reg = t_z + (t_sp − t_z)·e^(−UA_s/C).
 */
type Case = {
  outdoor_C: number;
  solAir_C: number;
  indoor_C: number;
  output_W: number;
  mass_kgs: number;
  supplyUa_WK: number;
  returnUa_WK: number;
  supplyLeak: number;
  returnLeak: number;
  share: number;
  attic_C: number;
  supply_C: number;
  register_C: number;
  delivered_W: number;
};
const heating = {
  outdoor_C: -5,
  solAir_C: -5,
  indoor_C: 20,
  output_W: 12000,
  mass_kgs: 0.5,
  supplyUa_WK: 15,
  returnUa_WK: 4,
  supplyLeak: 0.08,
  returnLeak: 0.06,
};
const cooling = {
  outdoor_C: 33,
  solAir_C: 72.1647,
  indoor_C: 24,
  output_W: -8000,
  mass_kgs: 0.55,
  supplyUa_WK: 15,
  returnUa_WK: 4,
  supplyLeak: 0.08,
  returnLeak: 0.06,
  share: 1,
};
const cases: Record<string, Case> = {
  'heating, all the time': {
    ...heating,
    share: 1,
    attic_C: -1.042,
    supply_C: 42.4377,
    register_C: 41.1602,
    delivered_W: 9792.09,
  },
  'heating, half the time': {
    ...heating,
    share: 0.5,
    attic_C: -2.4482,
    supply_C: 42.3428,
    register_C: 41.0268,
    delivered_W: 9730.38,
  },
  'cooling, leaky': {
    ...cooling,
    attic_C: 57.5392,
    supply_C: 11.7808,
    register_C: 13.0046,
    delivered_W: -5597.05,
  },
  'cooling, sealed and wrapped': {
    ...cooling,
    supplyUa_WK: 11,
    returnUa_WK: 3,
    supplyLeak: 0.02,
    returnLeak: 0.02,
    attic_C: 59.4643,
    supply_C: 10.4385,
    register_C: 11.4036,
    delivered_W: -6830.22,
  },
};

const heat_JkgK = 1006;
const nodes: AirNode[] = [
  { kind: 'outdoors', id: 'outdoors' },
  { kind: 'room', id: 'house' },
  { kind: 'zone', id: 'attic' },
  { kind: 'duct', id: 'grille' },
  { kind: 'duct', id: 'return plenum' },
  { kind: 'duct', id: 'supply plenum' },
  { kind: 'duct', id: 'register' },
];

function solve(one: Case) {
  const element = (
    kind: AirElement['kind'],
    from: number,
    to: number,
    conductance_WK?: number,
  ): AirElement => ({
    kind,
    from,
    to,
    of: kind,
    ...(conductance_WK ? { conductance_WK, surroundings: 'attic' } : {}),
  });
  const { mass_kgs: m } = one;
  const parts: [AirElement, number][] = [
    [element('terminal', 1, 3), m * (1 - one.returnLeak)],
    [element('leak', 2, 3), m * one.returnLeak],
    [element('duct', 3, 4, one.returnUa_WK), m],
    [element('coil', 4, 5), m],
    [element('duct', 5, 6, one.supplyUa_WK), m],
    [element('leak', 6, 2), m * one.supplyLeak],
    [element('terminal', 6, 1), m * (1 - one.supplyLeak)],
  ];
  const air = {
    mode: 'heating',
    nodes,
    elements: parts.map(([e]) => e),
    referenceDensity_kgm3: 1,
    systems: [],
    solution: { flow_m3s: Float64Array.from(parts.map(([, flow]) => flow)) },
  } as unknown as Air;
  const flow = directFlow(air);
  const columns = columnsOf(['house', 'attic'], flow.ring.length, 1);
  const transfers = parts.map(([e], i): Transfer => {
    const rate = flow.mass_kgs[i]! * heat_JkgK;
    const around = e.surroundings ? columns.place.get(e.surroundings)! : -1;
    return {
      keep: Math.exp(-(e.conductance_WK ?? 0) / rate),
      surroundings: around,
      add: 0,
      perOutput: e.kind === 'coil' ? 1 / rate : 0,
      output: e.kind === 'coil' ? columns.constant + 1 : -1,
    };
  });
  const carried = carry(air, flow, columns, transfers, one.outdoor_C);
  const toAttic = (from: string, conductance_WK: number, other_C?: number): HeatTerm => ({
    from,
    to: 'attic',
    what: from,
    cause: 'transmission',
    when: 'always',
    ...(other_C === undefined
      ? { constant_W: 0, conductance_WK, boundary_WK: 0 }
      : { constant_W: conductance_WK * other_C, conductance_WK: 0, boundary_WK: conductance_WK }),
  });
  const heat = [
    toAttic('roof', 601.066, one.solAir_C),
    toAttic('house', 35.154),
    toAttic('vents', 197.143, one.outdoor_C),
  ];
  const balance = sensibleBalance(
    air,
    flow,
    columns,
    carried,
    { heat, exchange: [], moisture: [] },
    heat_JkgK,
    one.outdoor_C,
    new Float64Array(columns.unknowns),
  );
  const outputs = [one.output_W];
  const values = solveBalance(balanceOver(balance, one.share), outputs, [one.indoor_C]);
  const node = (index: number) => evaluate(carried.node, index, columns, values, outputs);
  return {
    attic_C: values[1]!,
    supply_C: node(5),
    register_C: node(6),
    delivered_W: m * (1 - one.supplyLeak) * heat_JkgK * (node(6) - one.indoor_C),
  };
}

test.each(Object.entries(cases))('%s', (_, one) => {
  const found = solve(one);
  expect(found.attic_C).toBeCloseTo(one.attic_C, 3);
  expect(found.supply_C).toBeCloseTo(one.supply_C, 3);
  expect(found.register_C).toBeCloseTo(one.register_C, 3);
  expect(found.delivered_W).toBeCloseTo(one.delivered_W, 1);
});
