/**
 * Writes the readings of the first demo house: `npx tsx scripts/demo-readings.ts`, then format the file.
 * They are made up: the engine solves a house that differs from its survey (the kitchen's boot hangs off its ceiling,
 * the study's run is crushed), each value gets the error of its instrument, and one hose has slipped.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { account, formatQuantity, type Survey, seededRandom } from '@airledger/engine';
import { airTemperatures } from '@airledger/engine/account/air-temperatures';
import { siteDensity } from '@airledger/engine/air/air-density';
import { buildAirNetwork } from '@airledger/engine/air/build-air-network';
import { standardDensity_kgm3 } from '@airledger/engine/ducts/leakage-law';
import { computeLoads } from '@airledger/engine/loads/compute-loads';
import { compileNetwork, type Network, solveNetwork } from '@airledger/engine/network/index';
import { type JobReading, readJob, surveyOf } from '@airledger/job';

const file = new URL('../demo/1-quail-run-lane.airledger.json', import.meta.url);
const read = readJob(readFileSync(file, 'utf8'));
if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
const { job } = read;
const surveyed = surveyOf(job, 'as-found');

const cfm = 4.719474432e-4;
const leaks: Readonly<Record<string, number>> = {
  'run-kitchen/boot': 46,
  'run-dining/boot': 3,
  'run-main-1/boot': 3,
  'run-laundry/boot': 2,
  'supply-plenum/plenum': 11,
  'trunk-east/seam': 7,
  'trunk-west/seam': 7,
};

/** The house as it is. */
const truth: Survey = {
  ...surveyed,
  systems: surveyed.systems.map((system) => ({
    ...system,
    parts: system.parts.map((part) => ({
      ...part,
      slack: part.id === 'run-study' ? 0.45 : part.slack,
      leaks: part.leaks.map((leak) => {
        const flow = leaks[leak.id];
        return flow === undefined ? leak : { ...leak, flow25_m3s: flow * cfm };
      }),
    })),
  })),
};
const system = truth.systems[0]!;
const running = account(truth, 'cooling').air;

const uniform = seededRandom(20_250_715);
/** A standard normal deviate (Box and Muller 1958). */
const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
const noisy = (value: number, share: number, least: number) =>
  value + normal() * Math.hypot(share * value, least);

const density = siteDensity(truth, truth.indoor.cooling_C);
/** What a flow instrument shows of a flow at the survey's density. */
const shownFlow = (flow: number) => (flow * density) / Math.sqrt(standardDensity_kgm3 * density);
const flowText = (flow: number) => formatQuantity(flow, 'airflow', 'ip', 0);

const conditions = airTemperatures(truth, 'cooling', computeLoads(truth, 'cooling'));

/** The house with its fan off, some nodes held and registers masked. */
const held = (
  pressures: ReadonlyMap<string, number>,
  sealed: (terminal: string) => boolean,
  duct_Pa?: number,
) => {
  const off: Survey = {
    ...truth,
    doors: truth.doors.map((door) => ({ ...door, open: true })),
    systems: [
      { ...system, airHandler: { ...system.airHandler, fan: { ...system.airHandler.fan, running: false } } },
    ],
  };
  const { network, nodes, elements, systems } = buildAirNetwork(off, 'cooling', conditions);
  const { returning } = systems[0]!;
  const changed: Network = {
    ...network,
    nodes: network.nodes.map((node, n) => {
      const of = nodes[n]!;
      const pressure = n === returning ? duct_Pa : of.kind === 'room' ? pressures.get('rooms') : undefined;
      return pressure === undefined ? node : { ...node, fixedPressure_Pa: pressure };
    }),
    elements: network.elements.map((element, e) => {
      const terminal = elements[e]!.terminal;
      return terminal !== undefined && sealed(terminal)
        ? { id: element.id, from: element.from, to: element.to, kind: 'leak', coefficient: 0, exponent: 0.6 }
        : element;
    }),
  };
  const solution = solveNetwork(compileNetwork(changed));
  const flowOut = elements.reduce((sum, element, e) => {
    const flow = solution.flow_m3s[e]!;
    return sum + (element.from === returning ? flow : element.to === returning ? -flow : 0);
  }, 0);
  return { nodes, elements, pressure: solution.pressure_Pa, flowOut };
};
const everywhere = () => true;

const readings: JobReading[] = [];
const common = { state: 'as-found', by: 'L. Okonski', weather: { outdoor: '91 °F', wind: 'light' } } as const;
let minute = 0;
const add = (reading: Omit<JobReading, 'state' | 'by' | 'weather' | 'when'>) => {
  minute += 3;
  const clock = `${String(9 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
  readings.push({ ...reading, ...common, when: `2025-07-15 ${clock}` });
};

add({
  id: 'house-50',
  kind: 'house leakage',
  flow: flowText(noisy(shownFlow(truth.house.leakage50_m3s), 0.03, 0)),
});

const instrument = 1 + 0.02 * normal();
add({
  id: 'ducts-total',
  kind: 'duct leakage',
  of: system.id,
  to: 'total',
  stage: 'as found',
  points: [12, 18, 25, 32, 40].map((pressure) => {
    const { flowOut } = held(new Map([['rooms', 0]]), everywhere, pressure);
    return `${flowText(noisy(shownFlow(flowOut) * instrument, 0.01, 0))} at ${pressure} Pa`;
  }),
});
{
  const { flowOut } = held(new Map([['rooms', 25]]), everywhere, 25);
  add({
    id: 'ducts-outdoors',
    kind: 'duct leakage',
    of: system.id,
    to: 'outdoors',
    stage: 'as found',
    points: [`${flowText(noisy(shownFlow(flowOut) * instrument, 0.01, 0))} at 25 Pa`],
  });
}
for (const side of ['supply', 'return'] as const) {
  const flow =
    system.parts
      .filter((part) => part.side === side)
      .flatMap((part) => part.leaks)
      .reduce((sum, leak) => sum + leak.flow25_m3s, 0) +
    (side === 'return' ? system.airHandler.leaks.reduce((sum, leak) => sum + leak.flow25_m3s, 0) : 0);
  add({
    id: `ducts-${side}`,
    kind: 'duct leakage',
    of: system.id,
    to: 'total',
    stage: 'as found',
    points: [`${flowText(noisy(shownFlow(flow) * instrument, 0.01, 1 * cfm))} at 25 Pa`],
    setup: { side },
  });
}

const { supplyStatic_Pa, returnStatic_Pa, fanFlow_m3s } = running.systems[0]!;
const pressureText = (value: number) => formatQuantity(value, 'pressure', 'ip', 3);
const around = running.nodes.findIndex(({ id }) => id === system.airHandler.zone);
const filter = running.elements.find(({ kind }) => kind === 'filter')!;
const behindFilter = running.solution.pressure_Pa[filter.to]! - running.solution.pressure_Pa[around]!;
for (const [at, value] of [
  ['supply plenum', supplyStatic_Pa],
  // The hose had half slipped off: it shows a third of what is there.
  ['return plenum', 0.33 * returnStatic_Pa],
  ['after filter', behindFilter],
] as const)
  add({
    id: `static-${at.replace(' ', '-')}`,
    kind: 'plenum static',
    of: system.id,
    at,
    pressure: pressureText(noisy(value, 0.01, 1.2)),
  });
add({ id: 'fan', kind: 'fan flow', of: system.id, flow: flowText(noisy(shownFlow(fanFlow_m3s), 0.04, 0)) });

const flowOf = (terminal: string) =>
  Math.abs(running.solution.flow_m3s[running.elements.findIndex((one) => one.terminal === terminal)]!);
for (const { terminal } of system.parts.filter((part) => part.side === 'supply')) {
  if (!terminal) continue;
  const flow = flowText(noisy(shownFlow(flowOf(terminal.id)), 0.05, 1.5 * cfm));
  // The room in question is left for the one who tries the program.
  if (terminal.room === 'bedroom-3') continue;
  add({
    id: `hood-${terminal.id.replace('register-', '')}`,
    kind: 'register flow',
    of: terminal.id,
    flow,
  });
}

for (const which of ['living-1', 'dining', 'study', 'main-1', 'bedroom-2', 'bedroom-3']) {
  const id = `register-${which}`;
  const { pressure, elements } = held(new Map([['rooms', -50]]), (terminal) => terminal === id);
  const own = elements.find((one) => one.terminal === id)!;
  add({
    id: `pan-${which}`,
    kind: 'pressure pan',
    of: id,
    pressure: formatQuantity(noisy(pressure[own.from]! - pressure[own.to]!, 0.03, 0.1), 'pressure', 'si', 1),
  });
}

// As text, so that the rest of the file stays as it was typed.
const lines = readings.map((reading) => `    ${JSON.stringify(reading)}`).join(',\n');
const text = readFileSync(file, 'utf8').replace(
  /\n {2}"readings": \[\n[\s\S]*?\n {2}\],(?=\n {2}"states")/,
  '',
);
writeFileSync(file, text.replace(/\n {2}"states": \[/, `\n  "readings": [\n${lines}\n  ],$&`));
