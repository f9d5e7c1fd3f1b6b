/**
 * Every conversion of the program, from exact definitions: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg,
 * 1 Btu (International Table) = 1055.05585262 J, 1 in.wc (conventional, water at 4 °C) = 249.08891 Pa.
 */
export type Unit = {
  /** SI value of one of this unit. */
  readonly factor: number;
  /** SI value of its zero; only temperatures have one. */
  readonly zero?: number;
  /** Other spellings, lower case without spaces, dots, degree signs or brackets. */
  readonly spellings?: readonly string[];
  /** Written before its number, as in R-8. */
  readonly leads?: boolean;
};

const ft = 0.3048;
const inch = ft / 12;
const lb = 0.45359237;
const btu = 1055.05585262;
const btuh = btu / 3600;
const ton = 12000 * btuh;
const inwc = 249.08891;
const cfm = ft ** 3 / 60;
const kelvinPerF = 5 / 9;

const unit = (factor: number, ...spellings: string[]): Unit => ({ factor, spellings });

/** Units by the quantity they measure, each with its factor (and offset) to SI. */
export const unitTables = {
  length: {
    m: unit(1, 'metre', 'metres', 'meter', 'meters'),
    cm: unit(0.01),
    mm: unit(0.001),
    ft: unit(ft, "'", 'foot', 'feet'),
    in: unit(inch, '"', "''", 'inch', 'inches'),
  },
  area: {
    'm²': unit(1, 'sqm'),
    'cm²': unit(1e-4),
    'mm²': unit(1e-6),
    'ft²': unit(ft ** 2, 'sqft', 'sf'),
    'in²': unit(inch ** 2, 'sqin'),
  },
  volume: { 'm³': unit(1), L: unit(0.001), 'ft³': unit(ft ** 3, 'cuft', 'cf') },
  pressure: {
    Pa: unit(1),
    kPa: unit(1000),
    'in.wc': unit(inwc, 'inwg', 'inh2o', 'iwc', 'iwg', '"wc', '"wg', 'incw', 'inchwc', 'inchesofwater'),
  },
  airflow: {
    'm³/s': unit(1),
    'm³/h': unit(1 / 3600, 'm3/hr', 'cmh'),
    'L/s': unit(0.001, 'lps'),
    cfm: unit(cfm, 'ft3/min'),
  },
  power: {
    W: unit(1, 'watt', 'watts'),
    kW: unit(1000),
    'Btu/h': unit(btuh, 'btu/hr', 'btuh'),
    'kBtu/h': unit(1000 * btuh, 'kbtu/hr', 'kbtuh', 'mbh'),
    tons: unit(ton, 'ton'),
  },
  temperature: {
    '°C': { factor: 1, zero: 0, spellings: ['c', 'celsius'] },
    '°F': { factor: kelvinPerF, zero: -32 * kelvinPerF, spellings: ['f', 'fahrenheit'] },
    K: { factor: 1, zero: -273.15, spellings: ['kelvin'] },
  },
  temperatureDifference: { K: unit(1, 'kelvin', 'c'), '°F': unit(kelvinPerF, 'f') },
  resistance: {
    RSI: { factor: 1, leads: true, spellings: ['m2k/w', 'km2/w'] },
    R: {
      factor: (ft ** 2 * kelvinPerF) / btuh,
      leads: true,
      spellings: ['ft2fh/btu', 'hft2f/btu', 'hrft2f/btu', 'ft2fhr/btu', 'ft2hf/btu', 'ft2hrf/btu'],
    },
  },
  transmittance: {
    'W/(m²·K)': unit(1, 'w/m2/k', 'wm2k'),
    USI: { factor: 1, leads: true },
    'Btu/(h·ft²·°F)': unit(btuh / (ft ** 2 * kelvinPerF)),
    U: {
      factor: btuh / (ft ** 2 * kelvinPerF),
      leads: true,
      spellings: ['btu/hrft2f', 'btu/ft2hf', 'btu/ft2fh', 'btuh/ft2f', 'btuh/ft2/f'],
    },
  },
  edgeLoss: {
    'W/(m·K)': unit(1, 'w/m/k'),
    'Btu/(h·ft·°F)': unit(btuh / (ft * kelvinPerF), 'btu/hrftf', 'btuh/ftf', 'btuh/ft/f'),
  },
  conductivity: {
    'W/(m·K)': unit(1, 'w/m/k'),
    'Btu·in/(h·ft²·°F)': unit((btuh * inch) / (ft ** 2 * kelvinPerF), 'btuin/hrft2f'),
  },
  conductance: { 'W/K': unit(1), 'Btu/(h·°F)': unit(btuh / kelvinPerF, 'btu/hrf', 'btuh/f') },
  heatFlux: { 'W/m²': unit(1), 'Btu/(h·ft²)': unit(btuh / ft ** 2, 'btuh/ft2', 'btu/hrft2') },
  velocity: {
    'm/s': unit(1),
    'km/h': unit(1 / 3.6),
    fpm: unit(ft / 60, 'ft/min'),
    'ft/s': unit(ft, 'fps'),
    mph: unit(0.44704),
  },
  frictionRate: { 'Pa/m': unit(1), 'in.wc/100 ft': unit(inwc / (100 * ft), 'inwg/100ft', '"wc/100ft') },
  fanPower: {
    'W/(m³/s)': unit(1),
    'W/(L/s)': unit(1000, 'w/lps'),
    'W/(m³/h)': unit(3600),
    'W/cfm': unit(1 / cfm),
  },
  airflowPerPower: { 'L/s per kW': unit(1e-6, 'l/s/kw'), 'cfm/ton': unit(cfm / ton, 'cfmperton') },
  airflowPerArea: {
    'L/s per m²': unit(0.001, 'l/s/m2'),
    'cfm/100 ft²': unit(cfm / (100 * ft ** 2), 'cfmper100ft2'),
  },
  /** Air changes stay per hour, as every formula that uses them is stated per hour. */
  airChange: {
    'per hour': unit(1, '/h', '1/h', '/hr', '1/hr', 'ach', 'perh', 'changesperhour', 'airchangesperhour'),
  },
  massFlow: { 'kg/s': unit(1), 'kg/h': unit(1 / 3600), 'lb/h': unit(lb / 3600, 'lb/hr') },
  density: { 'kg/m³': unit(1), 'lb/ft³': unit(lb / ft ** 3) },
  humidityRatio: {
    'kg/kg': unit(1),
    'g/kg': unit(0.001),
    'gr/lb': unit(1 / 7000, 'grains/lb'),
    'lb/lb': unit(1),
  },
  enthalpy: { 'J/kg': unit(1), 'kJ/kg': unit(1000), 'Btu/lb': unit(btu / lb) },
  energy: {
    J: unit(1),
    MJ: unit(1e6),
    GJ: unit(1e9),
    kWh: unit(3.6e6),
    MWh: unit(3.6e9),
    Btu: unit(btu),
    kBtu: unit(1000 * btu),
    MMBtu: unit(1e6 * btu),
    therm: unit(1e5 * btu, 'therms'),
  },
  /**
   * Money per energy at the meter, higher heating value. A gallon of propane holds 91.5 kBtu and one of No. 2 oil
   * 138.5 kBtu (US Energy Information Administration).
   */
  energyPrice: {
    '$/J': unit(1),
    '$/kWh': unit(1 / 3.6e6),
    '¢/kWh': unit(0.01 / 3.6e6, 'cents/kwh'),
    '$/therm': unit(1 / (1e5 * btu)),
    '$/MMBtu': unit(1 / (1e6 * btu)),
    '$/GJ': unit(1e-9),
    '$/gal propane': unit(1 / (91.5e3 * btu)),
    '$/gal oil': unit(1 / (138.5e3 * btu)),
  },
  /** Of gas, by the volume that a meter counts. */
  heatingValue: { 'J/m³': unit(1), 'MJ/m³': unit(1e6), 'Btu/ft³': unit(btu / ft ** 3, 'btu/cuft', 'btu/cf') },
  duration: {
    s: unit(1, 'sec', 'second', 'seconds'),
    min: unit(60, 'minute', 'minutes'),
    h: unit(3600, 'hr', 'hour', 'hours'),
  },
  /** Degrees clockwise from north. */
  angle: { '°': unit(1, '') },
  ratio: { '%': unit(0.01, 'percent'), '': unit(1) },
  number: { '': unit(1) },
} as const satisfies Record<string, Record<string, Unit>>;
