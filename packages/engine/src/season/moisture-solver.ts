import { latentHeat_Jkg } from '../heat/terms.ts';
import type { Mode } from '../survey/types.ts';
import type { FanState } from './fan-state.ts';
import type { FreshAir } from './fresh-air.ts';
import { type SparseFactor, sparseFactorOf } from './sparse-factor.ts';

/**
 * Furnishings and surfaces take up and give moisture as if the air were this many times as much (common practice in
 * hourly models, from memory).
 */
const buffering = 15;

/**
 * Moisture of the house and its zones hour by hour, backward Euler. All rooms are one, since air mixes them within the
 * hour far faster than moisture comes and goes.
 */
export class MoistureSolver {
  /** By place: rooms, then zones. */
  readonly humidityRatio: Float64Array;
  private readonly rooms: number;
  private readonly lumps: number;
  private readonly air_kg: Float64Array;
  private readonly gain_kgs: number;
  private readonly running: Readonly<Partial<Record<Mode, { matrix: Float64Array; width: number }>>>;
  private readonly sparse: SparseFactor;

  constructor(
    volumes_m3: readonly number[],
    rooms: number,
    latentGain_W: number,
    density_kgm3: number,
    states: readonly FanState[],
    start: number,
  ) {
    const places = volumes_m3.length;
    this.rooms = rooms;
    this.lumps = 1 + places - rooms;
    this.humidityRatio = new Float64Array(places).fill(start);
    this.air_kg = new Float64Array(this.lumps);
    volumes_m3.forEach((volume_m3, i) => {
      this.air_kg[this.lumpOf(i)]! += volume_m3 * density_kgm3;
    });
    this.gain_kgs = latentGain_W / latentHeat_Jkg;
    this.running = Object.fromEntries(states.map((state) => [state.mode, this.lumped(state, places)]));
    this.sparse = sparseFactorOf(new Uint8Array(this.lumps ** 2).fill(1), this.lumps, 1);
  }

  private lumpOf(place: number): number {
    return place < this.rooms ? 0 : place - this.rooms + 1;
  }

  /** A fan state's rows with all rooms as one; width is lumps, outdoors, then the systems. */
  private lumped({ moisture, width }: FanState, places: number): { matrix: Float64Array; width: number } {
    const narrow = this.lumps + width - places - 1;
    const matrix = new Float64Array(this.lumps * narrow);
    for (let i = 0; i < places; i++) {
      const row = this.lumpOf(i) * narrow;
      for (let k = 0; k < places; k++) matrix[row + this.lumpOf(k)]! += moisture[i * width + k]!;
      matrix[row + this.lumps]! += moisture[i * width + places]!;
      for (let s = places + 2; s < width; s++)
        matrix[row + this.lumps + 1 + s - places - 2]! += moisture[i * width + s]!;
    }
    return { matrix, width: narrow };
  }

  /** Goes on by one hour; `dried_kgs` is what each system's coil takes out while the fans run. */
  step(
    mode: Mode | 'off',
    share: number,
    dried_kgs: Float64Array,
    outdoorHumidity: number,
    fresh: FreshAir,
  ): void {
    const { lumps, air_kg, humidityRatio, rooms } = this;
    // Every place of the matrix has an entry, in its order.
    const { entries: matrix, vectors } = this.sparse;
    const right = vectors[0]!;
    const state = mode === 'off' ? undefined : this.running[mode];
    matrix.fill(0);
    right.fill(0);
    for (let i = 0; i < humidityRatio.length; i++) {
      const lump = this.lumpOf(i);
      const air_kgs = (1 - share) * fresh.still_kgs[i]! + share * fresh.running_kgs[i]!;
      matrix[lump * lumps + lump]! += air_kgs;
      right[lump]! += air_kgs * outdoorHumidity;
    }
    right[0]! += this.gain_kgs;
    for (let lump = 0; lump < lumps; lump++) {
      const store = (buffering * air_kg[lump]!) / 3600;
      matrix[lump * lumps + lump]! += store;
      right[lump]! += store * humidityRatio[lump === 0 ? 0 : rooms + lump - 1]!;
      if (!state) continue;
      const from = lump * state.width;
      for (let k = 0; k < lumps; k++) matrix[lump * lumps + k]! -= share * state.matrix[from + k]!;
      right[lump]! += share * state.matrix[from + lumps]! * outdoorHumidity;
      for (let s = 0; s < dried_kgs.length; s++)
        right[lump]! -= share * dried_kgs[s]! * state.matrix[from + lumps + 1 + s]!;
    }
    this.sparse.factor();
    this.sparse.solve(right);
    for (let i = 0; i < humidityRatio.length; i++) humidityRatio[i] = Math.max(1e-6, right[this.lumpOf(i)]!);
  }
}
