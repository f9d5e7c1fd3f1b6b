import { seededRandom } from '@airledger/engine';
import { inferDefects } from '@airledger/engine/calibrate/draw-defects';
import { expectedNarrowing, type WeighedTarget } from '@airledger/engine/calibrate/expected-narrowing';
import { type HouseLoss, placeRepairs, repairGains } from '@airledger/engine/calibrate/first-repair';
import { type ForwardModel, forwardModel, startPressures } from '@airledger/engine/calibrate/forward-model';
import { worthPerMinute } from '@airledger/engine/calibrate/rank-readings';
import type { WeightedHypothesis } from '@airledger/engine/calibrate/search-defects';
import { normalRandom } from '@airledger/engine/numerics/normal-random';
import { caseModel, cfm } from '../tests/fixtures/case-house.ts';
import { type CaseReading, modelId, takeReadings } from '../tests/fixtures/case-readings.ts';
import { type RandomCase, randomCase } from '../tests/fixtures/random-case-house.ts';
import { type Line, limited, plain } from './line.ts';

const quickHouses = 2;
const wholeTime_min = 60;
/** Readings are looked through anew when this much more has been measured. */
const lookAgain_min = 8;
/** A repair is right when it wins this share of what the best one would. */
const rightShare = 0.8;

type SetUp = 'duct tester' | 'blower door' | 'hood';
const setUpMinutes: Readonly<Record<SetUp, number>> = { 'duct tester': 20, 'blower door': 20, hood: 4 };

/** Readings that are taken together, and what they cost (common practice, no source). */
type Action = { readonly ids: readonly string[]; readonly minutes: number; readonly needs: readonly SetUp[] };

function actionsOf({ design_cfm, rooms, boxes }: RandomCase) {
  const each = (what: string, minutes: number, ...needs: SetUp[]): Action[] =>
    design_cfm.map((_, i) => ({ ids: [`${what}${i + 1}`], minutes, needs }));
  const one = (minutes: number, ids: readonly string[], ...needs: SetUp[]): Action => ({
    ids,
    minutes,
    needs,
  });
  return {
    statics: [one(6, ['Psup', 'Pcoil', 'Pret', 'Pcab'])],
    fan: [one(10, ['fanflow'])],
    testers: [
      one(8, ['total25'], 'duct tester'),
      one(3, ['cfm50'], 'blower door'),
      one(8, ['out25'], 'duct tester', 'blower door'),
      one(15, ['sup25', 'ret25'], 'duct tester'),
    ],
    hoods: each('flow', 2, 'hood'),
    pans: each('pan', 1.5, 'blower door'),
    temperatures: [...each('temp', 1), one(4, ['treturn'])],
    boots: each('bootP', 3),
    takeoffs: each('toP', 8),
    rest: [
      one(
        8,
        Array.from({ length: rooms }, (_, i) => `room${i + 1}`),
      ),
      one(2, ['house0']),
      ...(boxes > 0 ? [one(7, [`end${boxes}`])] : []),
    ],
  };
}
type Actions = ReturnType<typeof actionsOf>;

const fixedOrders: Readonly<Record<string, (actions: Actions) => Action[]>> = {
  customary: ({ statics, fan, testers, hoods, pans, temperatures, boots, rest }) => [
    ...testers,
    ...statics,
    ...fan,
    ...hoods,
    ...pans,
    ...temperatures,
    ...boots,
    ...rest,
  ],
  'hood first': ({ statics, fan, testers, hoods, pans, temperatures, boots, rest }) => [
    ...statics,
    ...hoods,
    ...temperatures,
    ...boots,
    ...fan,
    ...pans,
    ...testers,
    ...rest,
  ],
};

/**
 * The first repair after an hour of measuring in houses drawn at random: readings chosen by what they narrow per minute,
 * against the customary order (testers first) and a fixed one with the hood first.
 * @param argument how many houses
 */
export function measuringOrder(argument = String(quickHouses)): Line[] {
  const right = new Map<string, number[]>();
  const shares = new Map<string, number[]>();
  for (let seed = 1001; seed < 1001 + Number(argument); seed++) {
    const house = randomCase(seed);
    const actions = actionsOf(house);
    const ids = Object.values(actions).flatMap((list) => list.flatMap((action) => action.ids));
    const all = takeReadings(house, ids, normalRandom(seededRandom(seed)));
    const readings = new Map(all.map((reading) => [reading[0], reading]));
    const loss = lossOf(house);
    const truth = trueGains(house, loss);
    const add = (order: string, taken: readonly CaseReading[]) => {
      const chosen = truth[chosenRepair(house, taken, loss)]!;
      const best = Math.max(...truth);
      right.set(order, [...(right.get(order) ?? []), +(chosen >= rightShare * best)]);
      shares.set(order, [...(shares.get(order) ?? []), Math.max(0, chosen) / best]);
    };
    for (const [name, order] of Object.entries(fixedOrders)) add(name, takeInOrder(order(actions), readings));
    add('per minute', takeByWorth(house, actions, readings, loss));
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return [...right].flatMap(([order, values]) => {
    const name = `right first repair after ${wholeTime_min} min, ${order} (${values.length} houses)`;
    return [
      order === 'per minute' ? limited(name, mean(values), '', 'least', 0.45) : plain(name, mean(values), ''),
      plain(`share of the best gain, ${order}`, mean(shares.get(order)!), ''),
    ];
  });
}

const owed = ({ needs }: Action, ready: ReadonlySet<SetUp>) =>
  needs.reduce((sum, need) => sum + (ready.has(need) ? 0 : setUpMinutes[need]), 0);

function takeInOrder(order: readonly Action[], readings: ReadonlyMap<string, CaseReading>): CaseReading[] {
  const ready = new Set<SetUp>();
  const taken: CaseReading[] = [];
  let left = wholeTime_min;
  for (const action of order) {
    const cost = action.minutes + owed(action, ready);
    if (cost > left) break;
    left -= cost;
    for (const need of action.needs) ready.add(need);
    taken.push(...action.ids.map((id) => readings.get(id)!));
  }
  return taken;
}

function takeByWorth(
  house: RandomCase,
  actions: Actions,
  readings: ReadonlyMap<string, CaseReading>,
  loss: HouseLoss,
): CaseReading[] {
  const taken = actions.statics.flatMap(({ ids }) => ids.map((id) => readings.get(id)!));
  let left = wholeTime_min - actions.statics[0]!.minutes;
  let open = Object.entries(actions).flatMap(([name, list]) => (name === 'statics' ? [] : list));
  const ready = new Set<SetUp>();
  while (left > 0) {
    const { forward, hypotheses } = searched(house, taken);
    const worth = worthOf(house, forward, hypotheses, open, readings, loss);
    let spent = 0;
    while (spent < lookAgain_min) {
      const affordable = open.filter((action) => action.minutes + owed(action, ready) <= left);
      if (affordable.length === 0) return taken;
      const perMinute = worthPerMinute(
        affordable.map((action) => ({
          minutes: action.minutes,
          setUp: {
            name: action.needs.filter((need) => !ready.has(need)).join(),
            minutes: owed(action, ready),
          },
        })),
        affordable.map((action) => worth.get(action)!),
        [''],
      );
      const next = affordable[perMinute.indexOf(Math.max(...perMinute))]!;
      const cost = next.minutes + owed(next, ready);
      left -= cost;
      spent += cost;
      for (const need of next.needs) ready.add(need);
      taken.push(...next.ids.map((id) => readings.get(id)!));
      open = open.filter((action) => action !== next);
    }
  }
  return taken;
}

const modelOf = (house: RandomCase, taken: readonly CaseReading[]) =>
  caseModel(
    house.network,
    taken.map(([id, value, sd]) => [modelId(id), value, sd] as const),
  );

function searched(house: RandomCase, taken: readonly CaseReading[]) {
  const forward = forwardModel(modelOf(house, taken));
  const search = inferDefects(forward);
  let step = search.next();
  while (!step.done) step = search.next();
  return { forward, hypotheses: step.value };
}

function worthOf(
  house: RandomCase,
  forward: ForwardModel,
  hypotheses: readonly WeightedHypothesis[],
  open: readonly Action[],
  readings: ReadonlyMap<string, CaseReading>,
  loss: HouseLoss,
): ReadonlyMap<Action, number> {
  const asked = open.flatMap(({ ids }) => ids.map((id) => readings.get(id)!));
  const flow = (edge: number, weight: number): WeighedTarget => ({
    target: { kind: 'flow', edges: [{ edge, sign: 1 }], ln: false },
    weight,
  });
  const repairs = placeRepairs(forward);
  const found = expectedNarrowing(
    forward,
    hypotheses,
    modelOf(house, asked),
    [
      ...loss.registers.map(({ edge }) => flow(edge, 1)),
      ...loss.outdoorLeaks.map((edge) => flow(edge, 0.7 ** 2)),
    ],
    ({ fit }) => repairGains(forward, repairs, loss, fit.theta, fit.pressures),
  );
  const removed = new Map(asked.map(([id], i) => [id, found[i]!.removed]));
  return new Map(open.map((action) => [action, action.ids.reduce((sum, id) => sum + removed.get(id)!, 0)]));
}

function lossOf({ network, design_cfm }: RandomCase): HouseLoss {
  return {
    registers: design_cfm.map((flow, i) => ({
      edge: network.edgeInto('register', `b${i + 1}`),
      needed_m3s: flow * cfm,
    })),
    outdoorLeaks: [...network.leakEdges.values()].map(([outside]) => outside),
  };
}

function trueGains(house: RandomCase, loss: HouseLoss): number[] {
  const forward = forwardModel(caseModel(house.truth, []));
  return repairGains(forward, placeRepairs(forward), loss, house.theta, startPressures(forward));
}

/** Index of the repair that wins most on average over what the readings allow. */
function chosenRepair(house: RandomCase, taken: readonly CaseReading[], loss: HouseLoss): number {
  const { forward, hypotheses } = searched(house, taken);
  const repairs = placeRepairs(forward);
  const gains = new Float64Array(repairs.length);
  for (const { fit, weight } of hypotheses.slice(0, 30))
    repairGains(forward, repairs, loss, fit.theta, fit.pressures).forEach((gain, i) => {
      gains[i]! += weight * gain;
    });
  return gains.indexOf(Math.max(...gains));
}
