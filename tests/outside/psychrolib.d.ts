declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetStandardAtmPressure(elevation: number): number;
    GetSatVapPres(dryBulb: number): number;
    GetHumRatioFromRelHum(dryBulb: number, relativeHumidity: number, pressure: number): number;
    GetHumRatioFromTWetBulb(dryBulb: number, wetBulb: number, pressure: number): number;
    GetHumRatioFromTDewPoint(dewPoint: number, pressure: number): number;
    GetTDewPointFromHumRatio(dryBulb: number, humidityRatio: number, pressure: number): number;
    GetTWetBulbFromHumRatio(dryBulb: number, humidityRatio: number, pressure: number): number;
    GetMoistAirEnthalpy(dryBulb: number, humidityRatio: number): number;
    GetMoistAirDensity(dryBulb: number, humidityRatio: number, pressure: number): number;
  };
  export default psychrolib;
}
