import { type Unit, unitTables } from './unit-tables.ts';

/** Which units figures are shown in: inch-pound or SI. */
export type UnitSystem = 'ip' | 'si';

type Table = keyof typeof unitTables;

/** How a dimension is called, written and shown; several may share one table of units. */
type DimensionInfo = {
  readonly units: Table;
  /** For messages: "a length", "an airflow". */
  readonly called: string;
  readonly examples: readonly [ip: string, si: string];
  /** Unit and decimals for display. */
  readonly ip: readonly [unit: string, decimals: number];
  readonly si: readonly [unit: string, decimals: number];
};

const info = <const T extends Table>(
  units: T,
  called: string,
  examples: readonly [string, string],
  ip: readonly [string, number],
  si: readonly [string, number],
): DimensionInfo & { readonly units: T } => ({ units, called, examples, ip, si });

/** Every physical quantity that a job or a figure can hold, with the units it is typed and shown in. */
export const dimensions = {
  length: info('length', 'a length', ['12 ft 6 in', '3.8 m'], ['ft', 1], ['m', 2]),
  /** A length in the trade's small unit: duct diameters, undercuts. */
  size: info('length', 'a size', ['7 in', '180 mm'], ['in', 1], ['mm', 0]),
  area: info('area', 'an area', ['120 ft²', '11 m²'], ['ft²', 0], ['m²', 1]),
  /** A small area: free area of a grille, a leak. */
  opening: info('area', 'an area', ['40 in²', '260 cm²'], ['in²', 1], ['cm²', 0]),
  volume: info('volume', 'a volume', ['3000 ft³', '85 m³'], ['ft³', 0], ['m³', 1]),
  pressure: info('pressure', 'a pressure', ['0.5 in.wc', '125 Pa'], ['in.wc', 3], ['Pa', 1]),
  airflow: info('airflow', 'an airflow', ['94 cfm', '44 L/s'], ['cfm', 0], ['L/s', 1]),
  power: info('power', 'a heat flow', ['36000 Btu/h', '10.5 kW'], ['Btu/h', 0], ['W', 0]),
  capacity: info('power', 'a capacity', ['3 tons', '10.5 kW'], ['tons', 1], ['kW', 1]),
  electricPower: info('power', 'a power', ['500 W', '500 W'], ['W', 0], ['W', 0]),
  temperature: info('temperature', 'a temperature', ['72 °F', '22 °C'], ['°F', 1], ['°C', 1]),
  temperatureDifference: info(
    'temperatureDifference',
    'a temperature difference',
    ['20 °F', '11 K'],
    ['°F', 1],
    ['K', 1],
  ),
  resistance: info('resistance', 'an R-value', ['R-8', 'RSI 1.4'], ['R', 1], ['RSI', 2]),
  transmittance: info('transmittance', 'a U-value', ['U-0.30', '1.7 W/(m²·K)'], ['U', 3], ['W/(m²·K)', 2]),
  surfaceCoefficient: info(
    'transmittance',
    'a surface coefficient',
    ['1.5 Btu/(h·ft²·°F)', '8.5 W/(m²·K)'],
    ['Btu/(h·ft²·°F)', 2],
    ['W/(m²·K)', 2],
  ),
  conductivity: info(
    'conductivity',
    'a conductivity',
    ['0.27 Btu·in/(h·ft²·°F)', '0.039 W/(m·K)'],
    ['Btu·in/(h·ft²·°F)', 3],
    ['W/(m·K)', 4],
  ),
  edgeLoss: info(
    'edgeLoss',
    'an edge loss',
    ['0.49 Btu/(h·ft·°F)', '0.85 W/(m·K)'],
    ['Btu/(h·ft·°F)', 2],
    ['W/(m·K)', 2],
  ),
  conductance: info(
    'conductance',
    'a conductance',
    ['400 Btu/(h·°F)', '210 W/K'],
    ['Btu/(h·°F)', 1],
    ['W/K', 1],
  ),
  heatFlux: info('heatFlux', 'a heat flux', ['30 Btu/(h·ft²)', '95 W/m²'], ['Btu/(h·ft²)', 1], ['W/m²', 1]),
  velocity: info('velocity', 'a velocity', ['600 fpm', '3 m/s'], ['fpm', 0], ['m/s', 2]),
  frictionRate: info(
    'frictionRate',
    'a friction rate',
    ['0.08 in.wc/100 ft', '0.65 Pa/m'],
    ['in.wc/100 ft', 3],
    ['Pa/m', 2],
  ),
  fanPower: info('fanPower', 'a fan power', ['0.5 W/cfm', '1.06 W/(L/s)'], ['W/cfm', 2], ['W/(L/s)', 2]),
  airflowPerPower: info(
    'airflowPerPower',
    'an airflow per capacity',
    ['400 cfm/ton', '54 L/s per kW'],
    ['cfm/ton', 0],
    ['L/s per kW', 1],
  ),
  airflowPerArea: info(
    'airflowPerArea',
    'an airflow per area',
    ['4 cfm/100 ft²', '0.2 L/s per m²'],
    ['cfm/100 ft²', 1],
    ['L/s per m²', 3],
  ),
  airChange: info(
    'airChange',
    'an air change rate',
    ['5 per hour', '5 per hour'],
    ['per hour', 1],
    ['per hour', 1],
  ),
  massFlow: info('massFlow', 'a mass flow', ['4500 lb/h', '0.57 kg/s'], ['lb/h', 0], ['kg/s', 3]),
  density: info('density', 'a density', ['0.075 lb/ft³', '1.2 kg/m³'], ['lb/ft³', 4], ['kg/m³', 3]),
  humidityRatio: info(
    'humidityRatio',
    'a humidity ratio',
    ['65 gr/lb', '9.3 g/kg'],
    ['gr/lb', 1],
    ['g/kg', 2],
  ),
  enthalpy: info('enthalpy', 'an enthalpy', ['28 Btu/lb', '65 kJ/kg'], ['Btu/lb', 2], ['kJ/kg', 1]),
  energy: info('energy', 'an energy', ['12 MMBtu', '3500 kWh'], ['MMBtu', 1], ['kWh', 0]),
  electricity: info('energy', 'an energy', ['3500 kWh', '3500 kWh'], ['kWh', 0], ['kWh', 0]),
  energyPrice: info(
    'energyPrice',
    'a price of energy',
    ['0.18 $/kWh', '1.45 $/therm'],
    ['$/kWh', 4],
    ['$/kWh', 4],
  ),
  heatingValue: info(
    'heatingValue',
    'a heating value',
    ['1030 Btu/ft³', '38 MJ/m³'],
    ['Btu/ft³', 0],
    ['MJ/m³', 1],
  ),
  duration: info('duration', 'a time', ['2.5 h', '40 min'], ['h', 1], ['h', 1]),
  angle: info('angle', 'a direction', ['SW', '225°'], ['°', 0], ['°', 0]),
  ratio: info('ratio', 'a share', ['15 %', '0.15'], ['%', 0], ['%', 0]),
  number: info('number', 'a number', ['0.65', '0.65'], ['', 2], ['', 2]),
} as const satisfies Record<string, DimensionInfo>;

/** Name of a physical quantity. */
export type Dimension = keyof typeof dimensions;

/** Names of the units of a dimension, as display writes them. */
export type UnitOf<D extends Dimension> = keyof (typeof unitTables)[(typeof dimensions)[D]['units']] & string;

/** The table of units of a dimension. */
export const unitsOf = (dimension: Dimension): Readonly<Record<string, Unit>> =>
  unitTables[dimensions[dimension].units];

/** SI value of `value` in `unit`; per cent becomes a fraction, air changes stay per hour. */
export const toSi = <D extends Dimension>(dimension: D, value: number, unit: UnitOf<D>): number => {
  const { factor, zero = 0 } = unitsOf(dimension)[unit]!;
  return value * factor + zero;
};

/** Number in `unit` of an SI value; the inverse of `toSi`. */
export const fromSi = <D extends Dimension>(dimension: D, si: number, unit: UnitOf<D>): number => {
  const { factor, zero = 0 } = unitsOf(dimension)[unit]!;
  return (si - zero) / factor;
};
