import { sectionGeometry } from '../ducts/section-geometry.ts';
import { specificHeat } from '../psychrometrics/air-properties.ts';
import type { Reading, ReadingSubject, SystemPlace, TestSetup } from '../readings/types.ts';
import type { AirSystem } from '../survey/types.ts';
import type { SurveyModel } from './model-of-survey.ts';
import { conditionOf } from './survey-conditions.ts';
import { partName } from './survey-parameters.ts';
import type { CalibrationModel, Condition, Measure, Observation } from './types.ts';

/** A reading that the estimator has no use for, and why. */
export type UnusedReading = { readonly reading: string; readonly why: string };

/** Share of a flow or pressure that the model itself may be wrong by; assumed. */
const modelError = 0.01;
/** What a temperature in a duct may differ from the mixed air's, K; assumed. */
const temperatureError_K = 0.2;
/** The same of a pressure pan, which sees one small leak through a whole network. */
const panError = { share: 0.04, floor_Pa: 0.05 };

/** The model with the readings as observations, each in its own condition of the house. */
export function withReadings(
  model: SurveyModel,
  readings: readonly Reading[],
): { readonly model: CalibrationModel; readonly unused: readonly UnusedReading[] } {
  const conditions: Condition[] = [];
  const keys: string[] = [];
  const conditionIndex = (setup: TestSetup): number => {
    const { key, condition } = conditionOf(model.survey, model, setup);
    const known = keys.indexOf(key);
    if (known >= 0) return known;
    keys.push(key);
    return conditions.push(condition) - 1;
  };
  conditionIndex(operating(model.mode));
  const observations: Observation[] = [];
  const unused: UnusedReading[] = [];
  const temperatures = temperaturesOf(model, readings);
  for (const reading of readings) {
    const found = observe(model, reading, temperatures);
    if (typeof found === 'string') {
      unused.push({ reading: reading.id, why: found });
      continue;
    }
    const value = reading.value + found.offset;
    observations.push({
      id: reading.id,
      condition: found.setup ? conditionIndex(found.setup) : -1,
      measure: found.measure,
      value,
      sd: Math.hypot(reading.accuracy, found.modelSd(value)),
    });
  }
  return {
    model: {
      nodeCount: model.edges.nodeCount,
      edges: model.edges.edges,
      parameters: model.parameters.list,
      groupCount: model.parameters.groupCount,
      conditions,
      observations,
    },
    unused,
  };
}

/** The house in use: fan on, everything open, doors as surveyed. */
export const operating = (mode: 'heating' | 'cooling'): TestSetup => ({
  fan: mode,
  doors: 'as surveyed',
  registers: 'open',
  filter: 'in',
  side: 'both',
});

type Found = {
  readonly measure: Measure;
  /** Absent when no condition needs to be solved. */
  readonly setup: TestSetup | undefined;
  /** What the reading lacks to the measure: velocity pressure of a static. */
  readonly offset: number;
  readonly modelSd: (value: number) => number;
};

type Temperatures = {
  readonly spaces: ReadonlyMap<string, number>;
  readonly supply_C: number | undefined;
  readonly room_C: number;
};

const byShare = (value: number) => modelError * Math.abs(value);

function observe(model: SurveyModel, reading: Reading, temperatures: Temperatures): Found | string {
  const { subject, setup } = reading;
  const { edges, places, spaces, parameters } = model;
  if ('system' in subject && subject.system !== model.system.id) return 'it is of another system';
  if (setup.fan !== 'off' && setup.fan !== model.mode && !oneSpeed(model.system.airHandler.fan))
    return `the fan ran at its ${setup.fan} speed, while the house is looked at in ${model.mode}`;
  const found = (measure: Measure, over: Partial<Found> = {}): Found => ({
    measure,
    setup,
    offset: 0,
    modelSd: byShare,
    ...over,
  });
  switch (subject.kind) {
    case 'duct leakage': {
      if (setup.ductPressure_Pa === undefined) return 'no duct pressure is given';
      const node = setup.side === 'supply' ? places.supplyOpening : places.returning;
      return found(
        {
          kind: 'flow',
          edges: edges.edges.flatMap(({ from, to }, edge) =>
            from === node ? [{ edge, sign: 1 }] : to === node ? [{ edge, sign: -1 }] : [],
          ),
        },
        { setup: { ...setup, fan: 'off', housePressure_Pa: setup.housePressure_Pa ?? 0 } },
      );
    }
    case 'house leakage': {
      const { leakage50_m3s, leakageExponent } = model.survey.house;
      const at = Math.abs(setup.housePressure_Pa ?? 50);
      return found(
        {
          kind: 'scaled',
          nominal: leakage50_m3s * (at / 50) ** leakageExponent,
          parameter: parameters.at('envelope'),
        },
        { setup: undefined },
      );
    }
    case 'system static': {
      const node = systemNode(model, subject.place);
      return found(
        { kind: 'pressure', node, to: places.around },
        { offset: setup.fan === 'off' ? 0 : velocityPressureAt(model, subject.place) },
      );
    }
    case 'part static': {
      const place = partNode(model, subject.part, subject.at);
      if (!place) return `no duct part '${subject.part}'`;
      return found(
        { kind: 'pressure', node: place.node, to: spaces.get(model.system.thermostatRoom)! },
        { offset: setup.fan === 'off' ? 0 : place.velocity_Pa },
      );
    }
    case 'pressure pan': {
      const end = terminalEnd(model, subject.terminal);
      if (!end) return `no terminal '${subject.terminal}'`;
      const except = setup.except?.includes(subject.terminal)
        ? setup.except
        : [...(setup.except ?? []), subject.terminal];
      return found(
        { kind: 'pressure', node: end.duct, to: end.room },
        {
          setup: { ...setup, fan: 'off', except, housePressure_Pa: setup.housePressure_Pa ?? -50 },
          modelSd: (value) => Math.hypot(panError.share * value, panError.floor_Pa),
        },
      );
    }
    case 'fan flow':
      return found({ kind: 'flow', edges: [{ edge: edges.fan, sign: 1 }] });
    case 'terminal flow': {
      const edge = edges.terminals.get(subject.terminal);
      return edge === undefined
        ? `no terminal '${subject.terminal}'`
        : found({ kind: 'flow', edges: [{ edge, sign: 1 }] });
    }
    case 'room pressure': {
      const [node, to] = [spaces.get(subject.room), spaces.get(subject.to)];
      if (node === undefined || to === undefined) return 'it is of a space that the survey does not have';
      return found({ kind: 'pressure', node, to });
    }
    case 'terminal temperature':
      return runTemperature(model, subject, temperatures, found);
    case 'system temperature': {
      if (subject.place === 'supply plenum') return 'it is where the temperatures of registers start from';
      return returnTemperature(model, temperatures, found);
    }
    case 'space temperature':
      return 'it is what the temperatures of ducts are compared with';
    case 'fan power':
      return 'fan power does not place leaks or restrictions';
  }
}

/** Whether a fan does the same in heating and cooling, so that readings of both go together. */
const oneSpeed = ({ tables, constantFlow_m3s: held }: AirSystem['airHandler']['fan']): boolean =>
  JSON.stringify(tables.heating) === JSON.stringify(tables.cooling) && held?.heating === held?.cooling;

function systemNode({ places, air, system }: SurveyModel, place: SystemPlace): number {
  const element = (kind: string) =>
    air.elements.find((one) => one.kind === kind && one.of === system.airHandler.id);
  switch (place) {
    case 'return plenum':
      return places.returning;
    case 'supply plenum':
      return places.leaving;
    case 'after filter':
      return element('filter')?.to ?? places.returning;
    case 'before coil':
      return element('coil')?.from ?? places.leaving;
  }
}

function velocityPressureAt(model: SurveyModel, place: SystemPlace): number {
  const { places, flow_m3s, air } = model;
  const area_m2 =
    place === 'supply plenum' ? places.supplyArea_m2 : place === 'return plenum' ? places.returnArea_m2 : 0;
  return area_m2 > 0 ? (air.network.air.density_kgm3 / 2) * (flow_m3s[places.fan]! / area_m2) ** 2 : 0;
}

function partNode(
  model: SurveyModel,
  partId: string,
  at: 'start' | 'end',
): { node: number; velocity_Pa: number } | undefined {
  const { air, system, edges, flow_m3s } = model;
  const part = system.parts.find(({ id }) => id === partId);
  const pieces = air.elements.flatMap((element, e) =>
    element.of === partId && (element.kind === 'duct' || element.kind === 'bypass') ? [e] : [],
  );
  const piece = at === 'start' ? pieces[0] : pieces.at(-1);
  if (!part || piece === undefined) return undefined;
  const { from, to } = air.elements[piece]!;
  const far = part.side === 'supply' ? to : from;
  const near = part.side === 'supply' ? from : to;
  const boot = at === 'end' && part.terminal !== undefined;
  const { area_m2 } = sectionGeometry(part.section);
  return {
    node: at === 'end' ? far : (edges.takeoffs.get(partId) ?? near),
    // In a boot the air is slow: its static is nearly the total pressure.
    velocity_Pa: boot ? 0 : (air.network.air.density_kgm3 / 2) * (flow_m3s[piece]! / area_m2) ** 2,
  };
}

function terminalEnd(model: SurveyModel, terminal: string): { duct: number; room: number } | undefined {
  const element = model.air.elements.find((one) => one.kind === 'terminal' && one.terminal === terminal);
  if (!element) return undefined;
  return element.side === 'supply'
    ? { duct: element.from, room: element.to }
    : { duct: element.to, room: element.from };
}

function temperaturesOf(model: SurveyModel, readings: readonly Reading[]): Temperatures {
  const spaces = new Map<string, number>();
  let supply_C: number | undefined;
  for (const { subject, value, outdoor_C } of readings) {
    if (subject.kind === 'space temperature') spaces.set(subject.space, value);
    if (subject.kind === 'system temperature' && subject.place === 'supply plenum') supply_C = value;
    if (outdoor_C !== undefined && !spaces.has('outdoors')) spaces.set('outdoors', outdoor_C);
  }
  return {
    spaces,
    supply_C,
    room_C: spaces.get(model.system.thermostatRoom) ?? model.survey.indoor[`${model.mode}_C`],
  };
}

type Wrap = (measure: Measure, over?: Partial<Found>) => Found;

function runTemperature(
  model: SurveyModel,
  subject: Extract<ReadingSubject, { kind: 'terminal temperature' }>,
  temperatures: Temperatures,
  found: Wrap,
): Found | string {
  const { air, places, edges, parameters, system, survey } = model;
  const end = terminalEnd(model, subject.terminal);
  const run = system.parts.find(({ terminal }) => terminal?.id === subject.terminal);
  if (!end || run?.side !== 'supply') return `no register '${subject.terminal}'`;
  if (temperatures.supply_C === undefined) return 'it needs the temperature in the supply plenum';
  const rooms = new Set(survey.rooms.map(({ id }) => id));
  const path: { edge: number; conductance_WK: number; around_C: number; parameters: number[] }[] = [];
  for (let node = end.duct; node !== places.leaving; ) {
    const e = air.elements.findIndex(
      (one) => one.to === node && (one.kind === 'duct' || one.kind === 'coil') && one.side === 'supply',
    );
    const element = air.elements[e];
    if (!element || path.length > air.elements.length) return 'its way from the plenum is not plain';
    if (element.conductance_WK !== undefined) {
      const around = element.surroundings ?? system.airHandler.zone;
      const around_C =
        temperatures.spaces.get(around) ?? (rooms.has(around) ? temperatures.room_C : undefined);
      if (around_C === undefined) return `it needs the temperature of '${around}'`;
      path.unshift({
        edge: edges.edgeOf.get(e)!,
        conductance_WK: element.conductance_WK,
        around_C,
        parameters: [
          parameters.at('conductance'),
          ...(element.of === run.id ? [parameters.at(partName('conductance', run.id))] : []),
        ],
      });
    }
    node = element.from;
  }
  return found(
    {
      kind: 'path temperature',
      start_C: temperatures.supply_C,
      heatCapacity_Jm3K: air.network.air.density_kgm3 * specificHeat(0.009),
      path,
    },
    { modelSd: () => temperatureError_K },
  );
}

function returnTemperature(model: SurveyModel, temperatures: Temperatures, found: Wrap): Found | string {
  const { spots, edges, spaces } = model;
  const leaks: { edge: number; around_C: number }[] = [];
  for (const spot of spots) {
    if (spot.side !== 'return' || spot.outside === spot.inside || spot.kind === 'cabinet') continue;
    const around_C = temperatures.spaces.get(spot.outside);
    if (around_C === undefined || !spaces.has(spot.outside))
      return `it needs the temperature of '${spot.outside}'`;
    for (const edge of edges.leaks.get(spot.id)!.outside) leaks.push({ edge, around_C });
  }
  if (leaks.length === 0) return 'no return duct lies outside';
  return found(
    {
      kind: 'mix temperature',
      room_C: temperatures.room_C,
      around_C: leaks[0]!.around_C,
      fan: edges.fan,
      leaks: leaks.map(({ edge }) => edge),
    },
    { modelSd: () => temperatureError_K },
  );
}
