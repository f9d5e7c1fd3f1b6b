import type { Survey } from '../survey/types.ts';
import type { RoomComfort, ZoneSeason } from './types.ts';

/** Departure from the set point that still counts as comfort, K (ASHRAE Standard 55 allows drifts of 1 to 2 K; from memory). */
export const usualTolerance_K = 1.5;

/** Counts hours out of comfort by room, and extremes of rooms and zones. */
export class Comfort {
  private readonly survey: Survey;
  private readonly tolerance_K: number;
  private readonly cold_h: Float64Array;
  private readonly warm_h: Float64Array;
  private readonly cold_Kh: Float64Array;
  private readonly warm_Kh: Float64Array;
  private readonly lowest_C: Float64Array;
  private readonly highest_C: Float64Array;
  private readonly sum_Ch: Float64Array;
  private hours = 0;

  constructor(survey: Survey, tolerance_K: number) {
    const rooms = survey.rooms.length;
    const places = rooms + survey.zones.length;
    this.survey = survey;
    this.tolerance_K = tolerance_K;
    this.cold_h = new Float64Array(rooms);
    this.warm_h = new Float64Array(rooms);
    this.cold_Kh = new Float64Array(rooms);
    this.warm_Kh = new Float64Array(rooms);
    this.lowest_C = new Float64Array(places).fill(Number.POSITIVE_INFINITY);
    this.highest_C = new Float64Array(places).fill(Number.NEGATIVE_INFINITY);
    this.sum_Ch = new Float64Array(places);
  }

  count(weight: number, temperature_C: Float64Array, heating_C: number, cooling_C: number): void {
    this.hours += weight;
    for (let i = 0; i < temperature_C.length; i++) {
      const at_C = temperature_C[i]!;
      if (at_C < this.lowest_C[i]!) this.lowest_C[i] = at_C;
      if (at_C > this.highest_C[i]!) this.highest_C[i] = at_C;
      this.sum_Ch[i]! += weight * at_C;
    }
    for (let r = 0; r < this.cold_h.length; r++) {
      const cold_K = heating_C - this.tolerance_K - temperature_C[r]!;
      const warm_K = temperature_C[r]! - cooling_C - this.tolerance_K;
      if (cold_K > 0) {
        this.cold_h[r]! += weight;
        this.cold_Kh[r]! += weight * cold_K;
      }
      if (warm_K > 0) {
        this.warm_h[r]! += weight;
        this.warm_Kh[r]! += weight * warm_K;
      }
    }
  }

  rooms(): RoomComfort[] {
    return this.survey.rooms.map(({ id, name }, r) => ({
      room: id,
      name,
      tooCold_h: this.cold_h[r]!,
      tooWarm_h: this.warm_h[r]!,
      tooCold_Kh: this.cold_Kh[r]!,
      tooWarm_Kh: this.warm_Kh[r]!,
      coldest_C: this.lowest_C[r]!,
      warmest_C: this.highest_C[r]!,
    }));
  }

  zones(): ZoneSeason[] {
    const rooms = this.survey.rooms.length;
    return this.survey.zones.map(({ id, name }, z) => ({
      zone: id,
      name,
      coldest_C: this.lowest_C[rooms + z]!,
      warmest_C: this.highest_C[rooms + z]!,
      mean_C: this.sum_Ch[rooms + z]! / this.hours,
    }));
  }
}
