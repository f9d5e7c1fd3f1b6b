/** Fields of one form that belong together; paths count from the record. */
export type Group = {
  readonly title: string;
  readonly fields: readonly (string | readonly [field: string, label: string])[];
  /** A list of the record whose items the fields belong to. */
  readonly list?: string;
};

export type Form = {
  /** Where such records stand in a job, `*` for any id. */
  readonly pattern: string;
  readonly title: string;
  readonly groups: readonly Group[];
};

const surfaceGroups: readonly Group[] = [
  {
    title: 'What it is',
    fields: ['name', 'kind', ['beyond', 'On the other side'], ['in', 'Sits in'], 'assembly', ['u', 'U']],
  },
  { title: 'Size', fields: ['area', ['size', 'Width x height'], 'count', ['spot', 'Place on the plan']] },
  {
    title: 'Sun',
    fields: [
      'facing',
      'solarHeatGain',
      'interiorShade',
      'insectScreen',
      'shaded',
      'absorptance',
      'overhangDepth',
      ['overhangAbove', 'Overhang above the head'],
    ],
  },
  { title: 'Slab', fields: [['edge', 'Exposed edge'], 'edgeLoss', ['cover', 'Carpet or floor']] },
];

const leakFields: Group['fields'] = [
  'place',
  'flow',
  'tightness',
  ['at', 'Where along'],
  ['zone', 'Opens to'],
  'exponent',
];

const filterFields = (path: string): Group['fields'] => [
  [`${path}/name`, 'Kind of filter'],
  [`${path}/face`, 'Filter face'],
  [`${path}/drop`, 'Pressure drop'],
  [`${path}/at`, 'Read at airflow'],
  [`${path}/exponent`, 'Exponent of the drop'],
];

const terminalFields = (path: string): Group['fields'] => [
  [`${path}name`, 'Name of the register or grille'],
  [`${path}room`, 'Opens into'],
  [`${path}face`, 'Face size'],
  [`${path}open`, 'Louvre open'],
  [`${path}freeArea`, 'Free area'],
  [`${path}lossCoefficient`, 'Loss coefficient'],
];

/** Every form of the page, by kind of record. Together they have a place for every field that is surveyed. */
export const forms = {
  job: {
    pattern: '',
    title: 'The job',
    groups: [
      {
        title: 'Job',
        fields: [
          ['name', 'Name of the house'],
          ['known', 'Values are usually'],
        ],
      },
      {
        title: 'About',
        fields: [
          'about/address',
          'about/client',
          'about/preparedBy',
          'about/company',
          'about/date',
          'about/notes',
        ],
      },
    ],
  },
  site: {
    pattern: 'site',
    title: 'Site and climate',
    groups: [
      { title: 'Place', fields: ['station', 'place', 'latitude', 'elevation'] },
      {
        title: 'Design days',
        fields: [
          'heatingDesign',
          'heatingPercentile',
          'coolingDesign',
          'coolingPercentile',
          ['coolingWetBulb', 'Wet bulb with it'],
          'dailyRange',
          'groundHeating',
          'groundCooling',
          ['source', 'Source of these'],
        ],
      },
    ],
  },
  indoor: {
    pattern: 'indoor',
    title: 'Indoors',
    groups: [
      {
        title: 'Thermostat and humidity',
        fields: [
          ['heating', 'Winter temperature'],
          ['cooling', 'Summer temperature'],
          ['heatingHumidity', 'Winter humidity'],
          ['coolingHumidity', 'Summer humidity'],
        ],
      },
    ],
  },
  house: {
    pattern: 'house',
    title: 'The house',
    groups: [
      {
        title: 'Size',
        fields: ['floorArea', 'storeys', 'bedrooms', 'yearBuilt', 'ceilingHeight', 'height'],
      },
      {
        title: 'Tightness of the envelope',
        fields: [
          ['leakage50', 'Blower door at 50 Pa'],
          ['airChanges50', 'Air changes at 50 Pa'],
          'tightness',
          'leakageExponent',
          'flueArea',
          ['combustionInside', 'Burner inside'],
        ],
      },
    ],
  },
  code: {
    pattern: 'code',
    title: 'Code and limits',
    groups: [
      {
        title: 'Code and limits',
        fields: ['edition', 'climateZone', 'supplyLeakageLimit', 'returnLeakageLimit'],
      },
    ],
  },
  season: {
    pattern: 'season',
    title: 'Year and prices',
    groups: [
      {
        title: 'Hours in which the thermostat stands elsewhere',
        list: 'setbacks',
        fields: [['from', 'From hour'], ['to', 'To hour'], 'heating', 'cooling'],
      },
      {
        title: 'What energy costs',
        list: 'tariffs',
        fields: [
          'fuel',
          'price',
          ['standing', 'Standing charge a month'],
          ['otherUse', 'Other use of the house a month'],
        ],
      },
      { title: 'Prices by use of the month', list: 'blocks', fields: ['fuel', ['above', 'Above'], 'price'] },
      {
        title: 'Prices by time of use',
        list: 'periods',
        fields: [
          'fuel',
          ['from', 'From hour'],
          ['to', 'To hour'],
          'firstMonth',
          'lastMonth',
          ['weekdays', 'Weekdays only'],
          'price',
        ],
      },
    ],
  },
  repairPrices: {
    pattern: 'repairPrices',
    title: 'Prices of repairs',
    groups: [
      {
        title: 'Prices of this job',
        fields: [
          ['date', 'Good in'],
          ['source', 'From'],
          ['labour', 'Hour of work, $'],
          ['test', 'Leakage test, $'],
        ],
      },
      {
        title: 'Repairs with prices of their own',
        list: 'repairs',
        fields: ['repair', ['material', 'Material, $'], ['hours', 'Hours of work']],
      },
    ],
  },
  room: {
    pattern: 'rooms/*',
    title: 'Room',
    groups: [
      { title: 'Room', fields: ['name', 'use', 'storey', 'floorArea', 'height'] },
      {
        title: 'Air it is meant to get',
        fields: [
          ['airflow/heating', 'Design airflow, heating'],
          ['airflow/cooling', 'Design airflow, cooling'],
        ],
      },
      {
        title: 'Gains',
        fields: [
          ['sensibleGain', 'Heat of people and appliances'],
          ['latentGain', 'Moisture of people and appliances'],
        ],
      },
      { title: 'Leaks of the envelope', fields: ['leakageShare'] },
      { title: 'Its leaks open to', list: 'leakageTo', fields: ['zone', 'share'] },
      {
        title: 'On the plan',
        fields: [
          ['corner', 'South-west corner'],
          ['size', 'Width x depth'],
          ['outline', 'Corners'],
        ],
      },
    ],
  },
  surface: { pattern: 'rooms/*/surfaces/*', title: 'Surface', groups: surfaceGroups },
  zoneSurface: { pattern: 'zones/*/surfaces/*', title: 'Surface', groups: surfaceGroups },
  zone: {
    pattern: 'zones/*',
    title: 'Zone',
    groups: [
      { title: 'Zone', fields: ['name', 'kind', 'storey', 'vented', 'insideEnvelope'] },
      { title: 'Size', fields: ['floorArea', 'volume', ['outline', 'Corners']] },
      {
        title: 'Outdoor air in it',
        fields: [
          ['airChangeHeating', 'Air change, heating day'],
          ['airChangeCooling', 'Air change, cooling day'],
          ['ventArea', 'Area of its vents'],
        ],
      },
    ],
  },
  door: {
    pattern: 'doors/*',
    title: 'Door',
    groups: [
      {
        title: 'Door',
        fields: [
          ['between/0', 'From'],
          ['between/1', 'To'],
          ['open', 'Standing open'],
          ['opening', 'Opening without a leaf'],
          ['size', 'Width x height'],
          'undercut',
          ['shutArea', 'Gaps when shut'],
          ['spot', 'Place on the plan'],
        ],
      },
    ],
  },
  transfer: {
    pattern: 'transfers/*',
    title: 'Transfer path',
    groups: [
      {
        title: 'Transfer path',
        fields: [
          'kind',
          ['between/0', 'From'],
          ['between/1', 'To'],
          ['face', 'Face of the grille'],
          'diameter',
          'freeArea',
          'lossCoefficient',
          ['spot', 'Place on the plan'],
        ],
      },
    ],
  },
  ventilator: {
    pattern: 'ventilators/*',
    title: 'Ventilator',
    groups: [
      {
        title: 'Ventilator',
        fields: [
          'kind',
          'room',
          ['returnPart', 'Tied to return part'],
          'flow',
          ['running', 'Runs in the design hour'],
          'sensibleRecovery',
          'latentRecovery',
        ],
      },
    ],
  },
  leakageTest: {
    pattern: 'leakageTests/*',
    title: 'Leakage test',
    groups: [
      {
        title: 'Leakage test',
        fields: ['system', 'stage', ['place', 'Leakage to'], 'side', ['flow', 'Flow at 25 Pa'], 'known'],
      },
    ],
  },
  reading: {
    pattern: 'readings/*',
    title: 'Reading',
    groups: [
      {
        title: 'What is read',
        fields: ['kind', 'state', ['of', 'Read at'], ['at', 'Place of the probe'], ['to', 'Against']],
      },
      {
        title: 'Value',
        fields: ['flow', ['points', 'Points of the test'], 'pressure', 'temperature', 'power', 'stage'],
      },
      {
        title: 'Plenum pressure that the flow is brought to',
        fields: [
          ['plenum/running', 'In use'],
          ['plenum/read', 'While the flow was read'],
        ],
      },
      {
        title: 'Temperature rise, heating steadily',
        fields: [
          ['rise/supply', 'Supply air'],
          ['rise/return', 'Return air'],
          ['rise/output', 'Heat output, or clock the gas'],
          ['rise/gas', 'Gas clocked'],
          ['rise/heatingValue', 'Heating value of the gas'],
          ['rise/efficiency', 'Efficiency of the burner'],
          ['rise/fanPower', 'Power of the fan between the probes'],
        ],
      },
      {
        title: 'How house and ducts stood',
        fields: [
          ['setup/fan', 'Fan'],
          ['setup/registers', 'Registers'],
          ['setup/except', 'Registers the other way'],
          ['setup/filter', 'Filter'],
          ['setup/doors', 'Doors'],
          ['setup/side', 'Side under test'],
          ['setup/ductPressure', 'Pressure held in the ducts'],
          ['setup/housePressure', 'Pressure held in the house'],
        ],
      },
      {
        title: 'Instrument and weather',
        fields: [
          'instrument',
          'accuracy',
          ['instrumentAir', 'Air through the instrument'],
          ['weather/outdoor', 'Outdoor temperature'],
          ['weather/wind', 'Wind'],
        ],
      },
      { title: 'Who and when', fields: ['by', 'when', 'note'] },
    ],
  },
  system: {
    pattern: 'systems/*',
    title: 'System',
    groups: [
      { title: 'System', fields: ['name', ['thermostatRoom', 'Thermostat in']] },
      {
        title: 'Airflow it is meant to move',
        fields: [
          ['airflow/heating', 'In heating'],
          ['airflow/cooling', 'In cooling'],
        ],
      },
      {
        title: 'Equipment',
        fields: [
          ['equipment/kind', 'Kind'],
          ['equipment/heating/output', 'Heating output'],
          ['equipment/heating/supplementary', 'Supplementary heat'],
          ['equipment/heating/temperatureRise', 'Temperature rise on the nameplate'],
          ['equipment/cooling/total', 'Cooling capacity'],
          ['equipment/cooling/sensibleHeatRatio', 'Sensible share of it'],
          ['equipment/cooling/ratedAirflow', 'Airflow of the rating'],
        ],
      },
      {
        title: 'Efficiency through the year',
        fields: [
          ['equipment/heating/fuel', 'Fuel of a furnace'],
          ['equipment/heating/afue', 'AFUE of a furnace'],
          ['equipment/heating/hspf', 'HSPF of a heat pump'],
          ['equipment/cooling/seer', 'SEER of the cooling'],
        ],
      },
      { title: 'Tested leakage of a side', list: 'leakage', fields: ['side', 'flow', 'exponent'] },
    ],
  },
  airHandler: {
    pattern: 'systems/*/airHandler',
    title: 'Air handler',
    groups: [
      { title: 'Place', fields: [['zone', 'Stands in'], 'storey', ['spot', 'Place on the plan']] },
      {
        title: 'Fan',
        fields: [
          ['fan/motor', 'Motor'],
          ['fan/holds/heating', 'Airflow it holds, heating'],
          ['fan/holds/cooling', 'Airflow it holds, cooling'],
          ['fan/heatingTable', 'Blower table, heating speed'],
          ['fan/coolingTable', 'Blower table, cooling speed'],
          ['fan/tableIncludes', 'In the cabinet when the table was made'],
          ['fan/ratedStatic', 'Rated external static'],
          ['fan/power', 'Electric power'],
          ['fan/running', 'Runs in the design hour'],
        ],
      },
      { title: 'Filter', fields: filterFields('filter') },
      {
        title: 'Coil',
        fields: [
          ['coil/drop', 'Pressure drop'],
          ['coil/at', 'Read at airflow'],
          ['coil/exponent', 'Exponent of the drop'],
          ['coil/external', 'Outside the cabinet'],
        ],
      },
      { title: 'Leaks of the cabinet', list: 'leaks', fields: leakFields },
    ],
  },
  part: {
    pattern: 'systems/*/parts/*',
    title: 'Duct',
    groups: [
      { title: 'Duct', fields: ['name', 'side', 'role', 'joins', ['at', 'Takeoff at'], 'endsOn', 'zone'] },
      {
        title: 'Size',
        fields: ['section', 'length', ['path', 'Line on the plan'], 'storey'],
      },
      {
        title: 'Kind',
        fields: ['material', 'roughness', 'slack', 'insulation', 'jacket', ['damper', 'Damper open']],
      },
      {
        title: 'Fittings',
        list: 'fittings',
        fields: ['name', 'count', 'lossCoefficient', 'equivalentLength', 'kind'],
      },
      { title: 'Leaks', list: 'leaks', fields: leakFields },
      { title: 'Register or grille at its end', fields: terminalFields('terminal/') },
    ],
  },
  register: {
    pattern: 'systems/*/parts/*/terminal',
    title: 'Register or grille',
    groups: [
      { title: 'Register or grille', fields: terminalFields('') },
      { title: 'Filter behind it', fields: filterFields('filter') },
    ],
  },
} as const satisfies Record<string, Form>;

export type FormName = keyof typeof forms;

/** Patterns of all fields that some form has a place for. */
export const placedFields = (): ReadonlySet<string> =>
  new Set(
    Object.values(forms).flatMap(({ pattern, groups }: Form) =>
      groups.flatMap(({ fields, list }) =>
        fields.map((field) =>
          fieldPattern(pattern, list === undefined ? fieldPath(field) : `${list}/*/${fieldPath(field)}`),
        ),
      ),
    ),
  );

export const fieldPath = (field: string | readonly [string, string]): string =>
  typeof field === 'string' ? field : field[0];

/** Name of a field as its form writes it: its own label, else its key in words. */
export const fieldLabel = (field: string | readonly [string, string]): string =>
  typeof field === 'string' ? keyWords(field.split('/').at(-1)!) : field[1];

/** "coolingWetBulb" as "Cooling wet bulb". */
export const keyWords = (key: string): string => {
  const words = key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** Pattern in the schema of a field of a record; the two ends of `between` are one field there. */
const fieldPattern = (pattern: string, field: string): string =>
  (pattern === '' ? field : `${pattern}/${field}`).replace(/between\/\d$/, 'between');
