import type { Mode } from '../survey/types.ts';
import type { Capability, Equipment } from './equipment-hour.ts';
import type { FanState } from './fan-state.ts';
import type { FreshAir } from './fresh-air.ts';
import type { HouseNetwork } from './house-network.ts';
import { type SparseFactor, sparseFactorOf } from './sparse-factor.ts';

/** One mode made ready for a year: the fans' rows and the equipment of each system (none: it does not work in this mode). */
export type Operation = {
  readonly state: FanState;
  readonly equipment: readonly (Equipment | undefined)[];
};

/** Everything that drives one hour. */
export type Drive = {
  outdoor_C: number;
  ground_C: number;
  edge_C: number;
  outdoorHumidity: number;
  /** Set points of the hour. */
  heating_C: number;
  cooling_C: number;
  /** Sun and other heat on the air of each place, and sun on its mass, W. */
  readonly air_W: Float64Array;
  readonly mass_W: Float64Array;
  readonly fresh: FreshAir;
};

/** How an hour came out; written anew for every hour. */
export type Outcome = {
  mode: Mode | 'off';
  share: number;
  /** By system, mean over the hour, W: of the equipment alone, of its supplementary heat; and its capability. */
  readonly output_W: Float64Array;
  readonly supplementary_W: Float64Array;
  readonly capability: readonly Capability[];
  /** By system: its thermostat's room was not held. */
  readonly short: Uint8Array;
  readonly temperature_C: Float64Array;
  residual_W: number;
  throughput_W: number;
};

/** Share at which the search stands still, and the most steps it takes. */
const standstill = 5e-5;
const mostSteps = 30;
/** Rounds in which several thermostats find their outputs beside each other. */
const mostSweeps = 40;
/** Share of the hour to try first when the equipment starts. */
const firstGuess = 0.3;
/** A thermostat is held when its room is this near, K. */
const held_K = 0.05;

/**
 * Solves a house hour by hour: rooms, zones and what they are made of, by backward Euler over the hour; ducts as the
 * rows of a fan state. The thermostat's room is held by the output, whose share of full output is the part of the hour
 * in which the fans run; all fans share the longest part, as on the design day.
 */
export class HourSolver {
  readonly mass_C: Float64Array;
  readonly air_C: Float64Array;
  readonly outcome: Outcome;
  private readonly house: HouseNetwork;
  private readonly specificHeat_JkgK: number;
  private readonly operations: Readonly<Partial<Record<Mode, Operation>>>;
  /** Systems by thermostat, and the place of each thermostat. */
  private readonly groups: readonly (readonly number[])[];
  private readonly thermostats: readonly number[];
  private readonly n: number;
  /** Coefficients at the entries of `sparse`: what acts always, and while the fans run. */
  private readonly base: Float64Array;
  private readonly heatAt: Readonly<Partial<Record<Mode, Float64Array>>>;
  private readonly right: Float64Array;
  private readonly known_W: Float64Array;
  /** Rise of each place for a watt of each group's output, n values a group. */
  private readonly effects: readonly Float64Array[];
  private readonly sparse: SparseFactor;
  /** Each group's output, its greatest, and that of its equipment alone, W; whether it works in the mode in hand. */
  private readonly wanted_W: Float64Array;
  private readonly most_W: Float64Array;
  private readonly base_W: Float64Array;
  private readonly works: Uint8Array;
  /** How the share that is asked for follows the share that is tried, by mode, as last seen. */
  private readonly slope: Record<Mode, number> = { heating: -1, cooling: -1 };
  private readonly seconds: number;
  private readonly startMass_C: Float64Array;
  private readonly startAir_C: Float64Array;

  constructor(
    house: HouseNetwork,
    operations: Readonly<Partial<Record<Mode, Operation>>>,
    groups: readonly (readonly number[])[],
    thermostats: readonly number[],
    specificHeat_JkgK: number,
    start_C: number,
    systems: number,
  ) {
    const n = house.places.length;
    this.house = house;
    this.operations = operations;
    this.groups = groups;
    this.thermostats = thermostats;
    this.specificHeat_JkgK = specificHeat_JkgK;
    this.seconds = 3600;
    this.n = n;
    this.known_W = new Float64Array(n);
    this.wanted_W = new Float64Array(groups.length);
    this.most_W = new Float64Array(groups.length);
    this.base_W = new Float64Array(groups.length);
    this.works = new Uint8Array(groups.length);
    const base = baseMatrix(house, this.seconds);
    const pattern = base.slice();
    for (const operation of Object.values(operations))
      for (let i = 0; i < n; i++)
        for (let k = 0; k < n; k++)
          if (operation.state.heat[i * operation.state.width + k] !== 0) pattern[i * n + k] = 1;
    this.sparse = sparseFactorOf(pattern, n, 1 + groups.length);
    const { places, vectors } = this.sparse;
    this.right = vectors[0]!;
    this.effects = vectors.slice(1);
    this.base = Float64Array.from(places, (k) => base[k]!);
    this.heatAt = Object.fromEntries(
      Object.values(operations).map(({ state: { mode, heat, width } }) => [
        mode,
        Float64Array.from(places, (k) => heat[Math.floor(k / n) * width + (k % n)]!),
      ]),
    );
    this.mass_C = new Float64Array(n).fill(start_C);
    this.air_C = new Float64Array(n).fill(start_C);
    this.startMass_C = new Float64Array(n);
    this.startAir_C = new Float64Array(n);
    this.outcome = {
      mode: 'off',
      share: 0,
      output_W: new Float64Array(systems),
      supplementary_W: new Float64Array(systems),
      capability: Array.from({ length: systems }, () => ({
        sensible_W: 0,
        latent_W: 0,
        supplementary_W: 0,
        input_W: 0,
      })),
      short: new Uint8Array(systems),
      temperature_C: this.air_C,
      residual_W: 0,
      throughput_W: 0,
    };
  }

  /** Goes on by one hour. `humidityRatio` is that of the house and zones, by place, at its start. */
  step(drive: Drive, humidityRatio: Float64Array): Outcome {
    this.startMass_C.set(this.mass_C);
    this.startAir_C.set(this.air_C);
    this.know(drive);
    const { outcome } = this;
    outcome.output_W.fill(0);
    outcome.supplementary_W.fill(0);
    outcome.short.fill(0);
    const before = outcome.mode;
    // In the middle of a season the mode stays; whether it does shows in the outputs, without a solve at rest.
    const stays = before !== 'off' && this.run(before, drive, humidityRatio, outcome.share);
    if (!stays) {
      const mode = this.atRest(drive);
      const runs = mode !== 'off' && this.run(mode, drive, humidityRatio, firstGuess);
      if (mode !== 'off' && !runs) this.atRest(drive);
    }
    this.settle(drive);
    return outcome;
  }

  /** Floats with everything off; the mode that the thermostats then ask for. */
  private atRest(drive: Drive): Mode | 'off' {
    const { outcome, operations } = this;
    this.assemble(drive, undefined, 0);
    this.sparse.factor();
    this.sparse.solve(this.right);
    this.air_C.set(this.right);
    outcome.mode = 'off';
    outcome.share = 0;
    let cold = 0;
    let warm = 0;
    for (const place of this.thermostats) {
      cold = Math.max(cold, drive.heating_C - this.air_C[place]!);
      warm = Math.max(warm, this.air_C[place]! - drive.cooling_C);
    }
    if (cold > 0 && cold >= warm && operations.heating) return 'heating';
    if (warm > 0 && operations.cooling) return 'cooling';
    return 'off';
  }

  /** Runs one mode; false (and everything off) when no thermostat asks for it. */
  private run(mode: Mode, drive: Drive, humidityRatio: Float64Array, guess: number): boolean {
    const { outcome, wanted_W, base_W } = this;
    const operation = this.operations[mode];
    if (!operation) return false;
    const sign = mode === 'heating' ? 1 : -1;
    const set_C = mode === 'heating' ? drive.heating_C : drive.cooling_C;
    let share = Math.min(1, Math.max(1e-3, guess));
    let lastShare = Number.NaN;
    let lastError = 0;
    for (let step = 0; ; step++) {
      this.capabilities(operation, drive, humidityRatio);
      this.respond(operation.state, drive, share);
      this.meet(sign, set_C, share);
      this.warm();
      let asked = 0;
      for (let g = 0; g < base_W.length; g++)
        if (base_W[g]! > 0) asked = Math.max(asked, Math.abs(wanted_W[g]!) / base_W[g]!);
      if (asked === 0) return false;
      const error = Math.min(1, asked) - share;
      // Equipment that runs all the hour asks for no new share, but must have seen the air of this hour and not the last.
      const seen = share < 1 || step > 0;
      if ((Math.abs(error) <= standstill && seen) || step >= mostSteps) break;
      if (Math.abs(share - lastShare) > standstill)
        this.slope[mode] = Math.min(-0.2, Math.max(-3, (error - lastError) / (share - lastShare)));
      lastShare = share;
      lastError = error;
      share = Math.min(1, Math.max(1e-6, share - error / this.slope[mode]));
    }
    outcome.mode = mode;
    outcome.share = share;
    this.describe(sign, set_C);
    return true;
  }

  /** Temperatures without outputs (in `right`) and what each group's output adds to them, fans running for `share`. */
  private respond(state: FanState, drive: Drive, share: number): void {
    const { n, groups, right, effects, sparse, works, base_W } = this;
    this.assemble(drive, state, share);
    sparse.factor();
    sparse.solve(right);
    for (let g = 0; g < groups.length; g++) {
      const members = groups[g]!;
      base_W[g] = 0;
      for (let m = 0; m < members.length; m++)
        base_W[g]! += Math.abs(this.outcome.capability[members[m]!]!.sensible_W);
      works[g] = base_W[g]! > 0 ? 1 : 0;
      if (!works[g]) continue;
      const effect = effects[g]!;
      effect.fill(0);
      for (let m = 0; m < members.length; m++) {
        const part = this.partOf(g, members[m]!);
        for (let i = 0; i < n; i++) effect[i]! += part * state.heat[i * state.width + n + 2 + members[m]!]!;
      }
      sparse.solve(effect);
    }
  }

  /**
   * Outputs with which each thermostat that asks is met, within 0 and the greatest output. Supplementary heat counts
   * once the equipment runs all the time. Groups in turn: they act on each other only through walls and doors.
   */
  private meet(sign: number, set_C: number, share: number): void {
    const { groups, thermostats, effects, right, wanted_W, most_W, base_W, works } = this;
    const all = share >= 1 - standstill;
    for (let g = 0; g < groups.length; g++) {
      const members = groups[g]!;
      wanted_W[g] = 0;
      most_W[g] = base_W[g]!;
      for (let m = 0; all && m < members.length; m++)
        most_W[g]! += this.outcome.capability[members[m]!]!.supplementary_W;
    }
    for (let sweep = 0; sweep < (groups.length > 1 ? mostSweeps : 1); sweep++)
      for (let g = 0; g < groups.length; g++) {
        if (!works[g]) continue;
        const place = thermostats[g]!;
        let lacking = set_C - right[place]!;
        for (let other = 0; other < groups.length; other++)
          if (other !== g && works[other]) lacking -= wanted_W[other]! * effects[other]![place]!;
        const per_W = effects[g]![place]!;
        const wanted = per_W > 0 ? (sign * lacking) / per_W : 0;
        wanted_W[g] = sign * Math.min(most_W[g]!, Math.max(0, wanted));
      }
  }

  /** Temperatures with the outputs that were found. */
  private warm(): void {
    const { n, groups, right, effects, wanted_W, works, air_C } = this;
    air_C.set(right);
    for (let g = 0; g < groups.length; g++) {
      if (!works[g]) continue;
      const effect = effects[g]!;
      for (let i = 0; i < n; i++) air_C[i]! += wanted_W[g]! * effect[i]!;
    }
  }

  /** Spreads each group's output over its systems: the equipment first, then what is supplementary. */
  private describe(sign: number, set_C: number): void {
    const { outcome, groups, thermostats, wanted_W, base_W, works, air_C } = this;
    for (let g = 0; g < groups.length; g++) {
      if (!works[g]) continue;
      const total_W = Math.abs(wanted_W[g]!);
      // At full share the search may stop a hair above it.
      const byBase_W = outcome.share >= 1 - standstill ? Math.min(total_W, base_W[g]!) : total_W;
      const isShort = sign * (set_C - air_C[thermostats[g]!]!) > held_K;
      for (const s of groups[g]!) {
        const part = this.partOf(g, s);
        outcome.output_W[s] = sign * byBase_W * part;
        outcome.supplementary_W[s] = sign * (total_W - byBase_W) * part;
        outcome.short[s] = isShort ? 1 : 0;
      }
    }
  }

  /** One system's part of its group's output. */
  private partOf(group: number, s: number): number {
    if (this.groups[group]!.length === 1) return 1;
    return Math.abs(this.outcome.capability[s]!.sensible_W) / this.base_W[group]!;
  }

  /** What each system could do with the air that now enters it. */
  private capabilities({ state, equipment }: Operation, drive: Drive, humidityRatio: Float64Array): void {
    const { n, air_C, outcome } = this;
    for (let s = 0; s < equipment.length; s++) {
      const one = equipment[s];
      const capability = outcome.capability[s]!;
      if (!one) {
        capability.sensible_W = 0;
        capability.latent_W = 0;
        capability.supplementary_W = 0;
        capability.input_W = 0;
        continue;
      }
      const row = state.entering[s]!;
      const wet = state.enteringMoisture[s]!;
      let entering_C = row[n]! * drive.outdoor_C + row[n + 1]!;
      let humidity = wet[n]! * drive.outdoorHumidity + wet[n + 1]!;
      for (let i = 0; i < n; i++) {
        entering_C += row[i]! * air_C[i]!;
        humidity += wet[i]! * humidityRatio[i]!;
      }
      one(entering_C, humidity, drive.outdoor_C, capability);
    }
  }

  /** The balance of the hour: conduction, mass, air, with fans running for `share` of it; right side without outputs. */
  private assemble(drive: Drive, state: FanState | undefined, share: number): void {
    const { n, base, right, known_W, specificHeat_JkgK } = this;
    const { entries, diagonal } = this.sparse;
    const heat = state ? this.heatAt[state.mode]! : base;
    const running = state ? share : 0;
    for (let at = 0; at < entries.length; at++) entries[at] = base[at]! - running * heat[at]!;
    const { still_kgs, running_kgs } = drive.fresh;
    for (let i = 0; i < n; i++) {
      const air_WK = specificHeat_JkgK * (still_kgs[i]! + running * (running_kgs[i]! - still_kgs[i]!));
      entries[diagonal[i]!]! += air_WK;
      right[i] = known_W[i]! + air_WK * drive.outdoor_C;
      if (state) {
        const from = i * state.width + n;
        right[i]! += running * (state.heat[from]! * drive.outdoor_C + state.heat[from + 1]!);
      }
    }
  }

  /** What drives each place whether fans run or not: boundaries, sun and gains, what it holds from the hour before, W. */
  private know(drive: Drive): void {
    const { n, house, known_W, startMass_C, startAir_C, seconds } = this;
    for (let i = 0; i < n; i++) {
      const store = house.capacity_JK[i]! / seconds;
      const coupling = house.coupling_WK[i]!;
      const held_W =
        coupling > 0
          ? (coupling / (store + coupling)) * (store * startMass_C[i]! + drive.mass_W[i]!)
          : store * startAir_C[i]! + drive.mass_W[i]!;
      known_W[i] =
        house.outdoors_WK[i]! * drive.outdoor_C +
        house.ground_WK[i]! * drive.ground_C +
        house.edge_WK[i]! * drive.edge_C +
        drive.air_W[i]! +
        held_W;
    }
  }

  /** Brings the mass forward, and holds what went in, came out and stayed against each other, line by line. */
  private settle(drive: Drive): void {
    const { n, house, air_C, mass_C, startMass_C, startAir_C, outcome, specificHeat_JkgK, seconds } = this;
    const state = outcome.mode === 'off' ? undefined : this.operations[outcome.mode]!.state;
    const { share } = outcome;
    outcome.residual_W = 0;
    outcome.throughput_W = 0;
    for (let i = 0; i < n; i++) {
      const store = house.capacity_JK[i]! / seconds;
      const coupling = house.coupling_WK[i]!;
      if (coupling > 0) {
        mass_C[i] = (store * startMass_C[i]! + coupling * air_C[i]! + drive.mass_W[i]!) / (store + coupling);
        this.count(-store * (mass_C[i]! - startMass_C[i]!));
      } else this.count(-store * (air_C[i]! - startAir_C[i]!));
      const air_kgs = (1 - share) * drive.fresh.still_kgs[i]! + share * drive.fresh.running_kgs[i]!;
      this.count(house.outdoors_WK[i]! * (drive.outdoor_C - air_C[i]!));
      this.count(specificHeat_JkgK * air_kgs * (drive.outdoor_C - air_C[i]!));
      this.count(house.ground_WK[i]! * (drive.ground_C - air_C[i]!));
      this.count(house.edge_WK[i]! * (drive.edge_C - air_C[i]!));
      this.count(drive.air_W[i]! + drive.mass_W[i]!);
    }
    if (state) {
      const row = state.fromOutdoors;
      let carried_W = share * (row[n]! * drive.outdoor_C + row[n + 1]!);
      for (let i = 0; i < n; i++) carried_W += share * row[i]! * air_C[i]!;
      for (let s = 0; s < outcome.output_W.length; s++) {
        const output_W = outcome.output_W[s]! + outcome.supplementary_W[s]!;
        carried_W += row[n + 2 + s]! * output_W;
        this.count(output_W);
        this.count(share * state.fan_W[s]!);
      }
      this.count(carried_W);
    }
  }

  private count(heat_W: number): void {
    this.outcome.residual_W += heat_W;
    this.outcome.throughput_W += Math.abs(heat_W) / 2;
  }
}

/** What never changes from hour to hour: conductances and the mass seen from the air. */
function baseMatrix(house: HouseNetwork, seconds: number): Float64Array {
  const n = house.places.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    let diagonal = house.outdoors_WK[i]! + house.ground_WK[i]! + house.edge_WK[i]!;
    for (let k = 0; k < n; k++) {
      const g = house.between_WK[i * n + k]!;
      diagonal += g;
      matrix[i * n + k]! -= g;
    }
    const store = house.capacity_JK[i]! / seconds;
    const coupling = house.coupling_WK[i]!;
    diagonal += coupling > 0 ? (coupling * store) / (store + coupling) : store;
    matrix[i * n + i]! += diagonal;
  }
  return matrix;
}
