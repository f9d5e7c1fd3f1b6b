import type { Air, AirElement } from '../air/types.ts';
import { latentHeat_Jkg, type When } from '../heat/terms.ts';
import type { Heat } from '../heat/types.ts';
import type { Loads } from '../loads/types.ts';
import type { LeakPlace, Survey } from '../survey/types.ts';
import type { Cause, Ledger, LedgerLine } from './types.ts';

/** Elements that air passes through and that stay the owner of it; all others hand air straight from place to place. */
const passages: ReadonlySet<AirElement['kind']> = new Set([
  'duct',
  'fan',
  'filter',
  'coil',
  'damper',
  'bypass',
]);

/** Largest imbalance that is still rounding. */
export const closesTo = 1e-9;

/**
 * Writes the account of a solved house as lines from place to place: air through the network, heat conducted by
 * ducts, heat and moisture of equipment, and all that passes between rooms, zones and their surroundings.
 * Heat in air counts from the indoor design state: sensible = share·ṁ·cp·(T − T_ref), latent = share·ṁ·h_fg·(W − W_ref).
 * @throws Error naming the place when it does not close to 1e-9 of the throughput: a fault of the program, never of the house.
 */
export function buildLedger(survey: Survey, loads: Loads, air: Air, heat: Heat): Ledger {
  const lines = new Lines(loads.indoor.temperature_C, loads.indoor.humidityRatio, heat.specificHeat_JkgK);
  addNetwork(lines, survey, air, heat);
  addTerms(lines, loads, heat);
  addStored(lines, heat);
  const merged = lines.list();
  return {
    mode: heat.mode,
    lines: merged,
    referenceTemperature_C: loads.indoor.temperature_C,
    referenceHumidityRatio: loads.indoor.humidityRatio,
    residual: closeLedger(merged, balancedPlaces(survey)),
  };
}

/** Places that must close: rooms, buffer zones, duct parts and air handlers. */
export const balancedPlaces = (survey: Survey): ReadonlySet<string> =>
  new Set([
    ...survey.rooms.map((room) => room.id),
    ...survey.zones.map((zone) => zone.id),
    ...survey.systems.flatMap((system) => [system.airHandler.id, ...system.parts.map((part) => part.id)]),
  ]);

/** What a line says besides its figures. */
type Heading = {
  readonly what: string;
  readonly cause: Cause;
  readonly share: number;
  readonly system?: string | undefined;
  readonly place?: LeakPlace | undefined;
};

/** Collects lines, adding up those that say the same. Written without spreads: it runs for every edit. */
class Lines {
  private readonly byKey = new Map<string, { -readonly [K in keyof LedgerLine]: LedgerLine[K] }>();
  private readonly reference_C: number;
  private readonly referenceHumidity: number;
  private readonly specificHeat_JkgK: number;

  constructor(reference_C: number, referenceHumidity: number, specificHeat_JkgK: number) {
    this.reference_C = reference_C;
    this.referenceHumidity = referenceHumidity;
    this.specificHeat_JkgK = specificHeat_JkgK;
  }

  add(
    from: string,
    to: string,
    heading: Heading,
    air_kgs: number,
    sensible_W: number,
    latent_W: number,
  ): void {
    const { what, cause, share, system, place } = heading;
    const key = `${from}|${to}|${what}|${cause}|${share}`;
    const same = this.byKey.get(key);
    if (same) {
      same.air_kgs += air_kgs;
      same.sensible_W += sensible_W;
      same.latent_W += latent_W;
    } else
      this.byKey.set(key, { from, to, what, cause, place, system, share, air_kgs, sensible_W, latent_W });
  }

  /** Air that carries its heat and moisture. */
  air(
    from: string,
    to: string,
    heading: Heading,
    air_kgs: number,
    temperature_C: number,
    humidityRatio: number,
  ): void {
    const rate = heading.share * air_kgs;
    const sensible_W = rate * this.specificHeat_JkgK * (temperature_C - this.reference_C);
    const latent_W = rate * latentHeat_Jkg * (humidityRatio - this.referenceHumidity);
    this.add(from, to, heading, air_kgs, sensible_W, latent_W);
  }

  /** Heat without air, written in the direction in which it flows. */
  heat(from: string, to: string, heading: Heading, sensible_W: number): void {
    if (sensible_W >= 0) this.add(from, to, heading, 0, sensible_W, 0);
    else this.add(to, from, heading, 0, -sensible_W, 0);
  }

  list(): LedgerLine[] {
    return [...this.byKey.values()];
  }
}

function addNetwork(lines: Lines, survey: Survey, air: Air, heat: Heat): void {
  const { flow, floating: state } = heat;
  const { share } = state;
  const placeOf = (node: number) => (air.nodes[node]!.kind === 'outdoors' ? 'outdoors' : air.nodes[node]!.id);
  air.elements.forEach((element, e) => {
    const air_kgs = flow.mass_kgs[e]!;
    if (!(air_kgs > 0)) return;
    const { system } = element;
    const upper = flow.upper[e]!;
    const from = placeOf(upper);
    const to = placeOf(flow.lower[e]!);
    const { what, cause } = wording(element);
    const heading: Heading = { what, cause, share, system, place: element.leak?.place };
    const enters_C = state.nodeTemperature_C[upper]!;
    const leaves_C = state.leavingTemperature_C[e]!;
    const leavingHumidity = state.leavingHumidityRatio[e]!;
    if (!passages.has(element.kind)) {
      lines.air(from, to, heading, air_kgs, leaves_C, leavingHumidity);
      return;
    }
    const owner = element.of;
    if (owner !== from) lines.air(from, owner, heading, air_kgs, enters_C, state.nodeHumidityRatio[upper]!);
    if (owner !== to) lines.air(owner, to, heading, air_kgs, leaves_C, leavingHumidity);
    const s = survey.systems.findIndex((one) => one.id === system);
    if (element.kind === 'fan')
      lines.heat(
        'electricity',
        owner,
        { what: 'fan power', cause: 'fan heat', share, system },
        share * heat.fanPower_W[s]!,
      );
    if (heat.source.includes(e)) {
      const { output_W, moisture_kgs } = state.systems[s]!;
      lines.heat(
        'equipment',
        owner,
        { what: 'equipment output', cause: heat.mode, share, system },
        share * output_W,
      );
      if (moisture_kgs !== 0)
        lines.add(
          owner,
          'equipment',
          { what: 'condensate', cause: heat.mode, share, system },
          0,
          0,
          share * moisture_kgs * latentHeat_Jkg,
        );
    }
    if (element.conductance_WK !== undefined && element.surroundings !== undefined) {
      const through: Cause = element.side === 'return' ? 'return conduction' : 'supply conduction';
      const sensible_W = share * air_kgs * heat.specificHeat_JkgK * (enters_C - leaves_C);
      lines.heat(
        owner,
        element.surroundings,
        { what: 'through the duct wall', cause: through, share, system },
        sensible_W,
      );
    }
  });
}

function wording(element: AirElement): { what: string; cause: Cause } {
  const returning = element.side === 'return';
  switch (element.kind) {
    case 'leak':
      return { what: element.leak?.place ?? 'leak', cause: returning ? 'return leak' : 'supply leak' };
    case 'envelope':
      return { what: 'forced through the envelope', cause: 'induced infiltration' };
    case 'zone opening':
      return { what: 'forced through the vents', cause: 'zone ventilation' };
    case 'door':
      return { what: `past ${element.of}`, cause: 'door air' };
    case 'transfer':
      return { what: `through ${element.of}`, cause: 'transfer air' };
    case 'ventilator':
      return { what: element.of, cause: 'ventilation' };
    default:
      return { what: 'air', cause: returning ? 'return air' : 'supply air' };
  }
}

function addTerms(lines: Lines, loads: Loads, heat: Heat): void {
  const { floating: state, terms } = heat;
  const shareOf = (when: When) =>
    when === 'always' ? 1 : when === 'fan on' ? state.share : Math.max(0, 1 - state.share);
  const temperature = (place: string) => state.temperature_C[place] ?? loads.outdoor.temperature_C;
  const humidity = (place: string) => state.humidityRatio[place] ?? loads.outdoor.humidityRatio;
  for (const { from, to, what, cause, when, constant_W, conductance_WK, boundary_WK } of terms.heat) {
    const share = shareOf(when);
    const between = conductance_WK === 0 ? 0 : conductance_WK * (temperature(from) - temperature(to));
    const boundary = boundary_WK === 0 ? 0 : boundary_WK * temperature(to);
    lines.heat(from, to, { what, cause, share }, share * (constant_W + between - boundary));
  }
  for (const { from, to, what, cause, when, mass_kgs } of terms.exchange) {
    const share = shareOf(when);
    if (share === 0 || mass_kgs === 0) continue;
    const heading = { what, cause, share };
    lines.air(from, to, heading, mass_kgs, temperature(from), humidity(from));
    lines.air(to, from, heading, mass_kgs, temperature(to), humidity(to));
  }
  for (const { from, to, what, cause, when, moisture_kgs } of terms.moisture) {
    const share = shareOf(when);
    lines.add(from, to, { what, cause, share }, 0, 0, share * moisture_kgs * latentHeat_Jkg);
  }
}

/** Heat and moisture that nothing carries away are stored, as they would be in a sealed box. */
function addStored(lines: Lines, heat: Heat): void {
  for (const { place, sensible_W, moisture_kgs } of heat.floating.stored)
    lines.add(
      place,
      'construction',
      { what: 'nothing carries it away', cause: 'storage', share: 1 },
      0,
      sensible_W,
      moisture_kgs * latentHeat_Jkg,
    );
}

/** Imbalance of the worst place over the largest throughput of a place, in air, sensible and latent heat. */
export function closeLedger(lines: readonly LedgerLine[], places: ReadonlySet<string>): Ledger['residual'] {
  const names = [...places];
  const index = new Map(names.map((name, i) => [name, i]));
  const net = new Float64Array(3 * names.length);
  const through = new Float64Array(3 * names.length);
  const book = (place: string, sign: number, line: LedgerLine) => {
    const i = index.get(place);
    if (i === undefined) return;
    const air = line.share * line.air_kgs;
    net[3 * i]! += sign * air;
    net[3 * i + 1]! += sign * line.sensible_W;
    net[3 * i + 2]! += sign * line.latent_W;
    through[3 * i]! += air / 2;
    through[3 * i + 1]! += Math.abs(line.sensible_W) / 2;
    through[3 * i + 2]! += Math.abs(line.latent_W) / 2;
  };
  for (const line of lines) {
    book(line.from, -1, line);
    book(line.to, 1, line);
  }
  const worst = (kind: 0 | 1 | 2, floor: number) => {
    let throughput = floor;
    for (let i = 0; i < names.length; i++) throughput = Math.max(throughput, through[3 * i + kind]!);
    let largest = 0;
    for (let i = 0; i < names.length; i++) {
      const rest = Math.abs(net[3 * i + kind]!) / throughput;
      if (!(rest <= closesTo))
        throw new Error(`The ledger does not close at ${names[i]}: ${net[3 * i + kind]} of ${throughput}.`);
      largest = Math.max(largest, rest);
    }
    return largest;
  };
  return { air: worst(0, 1e-6), sensible: worst(1, 1), latent: worst(2, 1) };
}
