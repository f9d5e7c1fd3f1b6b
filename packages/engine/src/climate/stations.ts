import rows from '../../data/stations.json' with { type: 'json' };

/** Design conditions of one weather station, whole degrees; an example to replace by locally adopted values. */
export type Station = {
  readonly id: string;
  readonly name: string;
  /** Climate zone of the energy code. */
  readonly zone: string;
  readonly latitude_deg: number;
  /** East positive. */
  readonly longitude_deg: number;
  readonly elevation_m: number;
  /** Dry bulb that 99 % of the hours of a year exceed. */
  readonly heatingDryBulb_C: number;
  /** Dry bulb that 1 % of the hours of a year exceed, and the mean wet bulb at that dry bulb. */
  readonly coolingDryBulb_C: number;
  readonly coolingWetBulb_C: number;
  /** Mean daily range of the hottest month. */
  readonly dailyRange_K: number;
  /** Mean of the year, out of the degree-days: 18.3 − (HDD − CDD)/365. */
  readonly annualMean_C: number;
  readonly source: string;
};

/** Which percentile of the year each design temperature of a station is. */
export const stationPercentiles = { heating: '99 %', cooling: '1 %' } as const;

/** A few example stations, not a list to design from. */
export const stations: readonly Station[] = rows;

/** The station with this id, or undefined. */
export const stationById = (id: string): Station | undefined => stations.find((station) => station.id === id);
