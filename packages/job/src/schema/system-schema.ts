import { z } from 'zod';
import {
  count,
  faceField,
  fanPointField,
  flag,
  id,
  nameFrom,
  pointField,
  quantity,
  reference,
  sectionField,
  text,
} from './fields.ts';
import { knownSchema, spotField } from './house-schema.ts';
import { fuelField } from './season-schema.ts';

const tightnessOfLeaks = ['sealed', 'typical', 'leaky', 'open'] as const;
const leakPlaces = ['takeoff', 'joint', 'seam', 'boot', 'plenum', 'cabinet'] as const;

const leakSchema = z.strictObject({
  id: id('Name within its part; the place when absent.').optional(),
  place: z.enum(leakPlaces),
  flow: quantity('airflow', 'Flow at 25 Pa.', { least: '0 cfm', most: '3000 cfm' }).optional(),
  tightness: z.enum(tightnessOfLeaks).describe('In a word, when it was only looked at.').optional(),
  at: z.enum(['start', 'along', 'end']).describe('Air-handler end, along, or far end.').optional(),
  zone: reference('Zone or room it opens to; the part’s own zone when absent.').optional(),
  exponent: quantity('number', 'Exponent of the leak.', { least: '0.5', most: '1' }).optional(),
});

const dropSchema = {
  drop: quantity('pressure', 'Pressure drop.', { least: '0 in.wc', most: '4 in.wc' }).optional(),
  at: quantity('airflow', 'Airflow at which it was read.', { least: '10 cfm', most: '10000 cfm' }).optional(),
  exponent: quantity('number', 'Exponent of the drop over the flow.', { least: '1', most: '2.5' }).optional(),
};

const filterSchema = z.strictObject({
  name: nameFrom('filters', 'Name from the table of filters.').optional(),
  face: faceField('Face of the filter, to scale a table value by its speed.').optional(),
  ...dropSchema,
});

const terminalSchema = z.strictObject({
  id: id('Name of the register or grille.'),
  name: text('As the report should call it.').optional(),
  room: reference('Room it opens into.'),
  face: faceField('Face size.').optional(),
  freeArea: quantity('opening', 'Free area, as the maker states it.', {
    least: '1 in²',
    most: '2000 in²',
  }).optional(),
  lossCoefficient: quantity('number', 'Total-pressure loss on the free-area velocity, exit included.', {
    least: '0.1',
    most: '50',
  }).optional(),
  open: quantity('ratio', 'Share left open by the louvre.', { least: '0 %', most: '100 %' }).optional(),
  filter: filterSchema.describe('Filter behind the grille.').optional(),
});

const fittingSchema = z.strictObject({
  name: nameFrom('fittings', 'Name from the table of fittings, or your own with a loss.'),
  kind: text('Takeoff, elbow, boot …').optional(),
  count: count('How many of the same.', 1, 50).optional(),
  lossCoefficient: quantity('number', 'Loss on the part’s own section.', {
    least: '-5',
    most: '200',
  }).optional(),
  equivalentLength: quantity('length', 'Equivalent length.', { least: '0 ft', most: '500 ft' }).optional(),
});

export const partSchema = z.strictObject({
  id: id('Name that other parts join.'),
  name: text('As the report should call it.').optional(),
  side: z.enum(['supply', 'return']),
  role: z.enum(['plenum', 'trunk', 'run', 'bypass']),
  joins: reference('Part it joins on the way to the air handler, or air-handler.'),
  at: quantity(
    'length',
    'Distance along the joined part from its air-handler end; its far end when absent.',
    {
      least: '0 ft',
      most: '300 ft',
    },
  ).optional(),
  endsOn: reference('Return part on which a bypass ends.').optional(),
  section: sectionField,
  length: quantity('length', 'Installed length.', { least: '1 in', most: '300 ft' }),
  material: nameFrom('materials', 'Name from the table of materials.').optional(),
  roughness: quantity('size', 'Roughness, instead of the material’s.', {
    least: '0 mm',
    most: '10 mm',
    examples: ['0.003 ft', '0.9 mm'],
  }).optional(),
  slack: quantity('ratio', 'Unstretched excess of flex, share of its extended length.', {
    least: '0 %',
    most: '60 %',
  }).optional(),
  insulation: quantity('resistance', 'Labelled R; R-0 is bare.', { least: 'R-0', most: 'R-60' }).optional(),
  jacket: z.enum(['plastic', 'foil', 'bare metal']).describe('What faces the zone.').optional(),
  zone: reference('Zone or room around it.'),
  fittings: z
    .array(z.union([nameFrom('fittings', 'Name from the table of fittings.'), fittingSchema]))
    .describe('Names from the table, or records.')
    .optional(),
  damper: quantity('ratio', 'Damper: 100 % is open; none when absent.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
  leaks: z
    .array(leakSchema)
    .describe('By place; an empty list is tight; usual ones are filled in when absent.')
    .optional(),
  terminal: terminalSchema.describe('Register (supply) or grille (return) at its far end.').optional(),
  path: z
    .array(pointField('A bend.'))
    .describe('Line on the plan, from the joined part outwards.')
    .optional(),
  storey: count('Storey on whose plan it is drawn.', -1, 7).optional(),
});

const equipmentSchema = z.strictObject({
  kind: z.enum(['furnace with air conditioner', 'furnace', 'heat pump', 'air conditioner']),
  heating: z
    .strictObject({
      output: quantity('power', 'Output; of a heat pump at 47 °F outdoors.', {
        least: '1 kBtu/h',
        most: '500 kBtu/h',
      }),
      supplementary: quantity('power', 'Electric or other heat beside a heat pump.', {
        least: '0 kW',
        most: '100 kW',
      }).optional(),
      temperatureRise: quantity('temperatureDifference', 'Nameplate window of a furnace, as "35 to 65 °F".', {
        least: '5 °F',
        most: '150 °F',
      }).optional(),
      fuel: fuelField.describe('What a furnace burns; electricity for resistance heat.').optional(),
      afue: quantity('ratio', 'Yearly efficiency (AFUE) of a furnace.', {
        least: '40 %',
        most: '100 %',
        examples: ['80 %', '80 %'],
      }).optional(),
      hspf: quantity('number', 'Heating rating (HSPF, Btu/Wh) of a heat pump.', {
        least: '4',
        most: '15',
        examples: ['8.2', '8.2'],
      }).optional(),
    })
    .optional(),
  cooling: z
    .strictObject({
      total: quantity('capacity', 'Total capacity at rating conditions.', {
        least: '0.5 tons',
        most: '40 tons',
      }),
      sensibleHeatRatio: quantity('ratio', 'Sensible share of it.', {
        least: '40 %',
        most: '100 %',
      }).optional(),
      ratedAirflow: quantity('airflow', 'Airflow of the rating.', {
        least: '100 cfm',
        most: '16000 cfm',
      }).optional(),
      seer: quantity('number', 'Cooling rating (SEER, Btu/Wh).', {
        least: '5',
        most: '30',
        examples: ['14', '14'],
      }).optional(),
    })
    .optional(),
});

const motors = ['PSC', 'constant torque', 'constant flow'] as const;

const bothModes = (help: string) =>
  z
    .strictObject({
      heating: quantity('airflow', 'In heating.', { least: '50 cfm', most: '16000 cfm' }).optional(),
      cooling: quantity('airflow', 'In cooling.', { least: '50 cfm', most: '16000 cfm' }).optional(),
    })
    .describe(help);

const fanSchema = z.strictObject({
  motor: z.enum(motors).describe('How the motor answers to resistance.').optional(),
  heatingTable: z.array(fanPointField).min(2).describe('Blower table at the heating speed.').optional(),
  coolingTable: z.array(fanPointField).min(2).describe('Blower table at the cooling speed.').optional(),
  tableIncludes: z
    .array(z.enum(['coil', 'filter']))
    .describe('What was in the cabinet when the table was made: its drop is added back.')
    .optional(),
  holds: bothModes('Airflow that a constant-flow motor holds; the system’s airflow when absent.').optional(),
  running: flag('Runs in the design hour.').optional(),
  power: quantity('fanPower', 'Electric power per airflow.', {
    least: '0.05 W/cfm',
    most: '3 W/cfm',
  }).optional(),
  ratedStatic: quantity('pressure', 'Greatest external static pressure on the nameplate.', {
    least: '0.1 in.wc',
    most: '2 in.wc',
  }).optional(),
});

const coilSchema = z.strictObject({
  external: flag('Outside the cabinet whose external static is rated, as on a furnace.').optional(),
  ...dropSchema,
});

const airHandlerSchema = z.strictObject({
  zone: reference('Zone or room it stands in.'),
  spot: spotField,
  storey: count('Storey on whose plan it is drawn.', -1, 7).optional(),
  fan: fanSchema.optional(),
  filter: filterSchema.optional(),
  coil: coilSchema.optional(),
  leaks: z.array(leakSchema).optional(),
});

export const systemSchema = z.strictObject({
  id: id('Name.'),
  name: text('As the report should call it.').optional(),
  thermostatRoom: reference('Room that holds its thermostat.'),
  airflow: bothModes('Airflow it is meant to move.').optional(),
  equipment: equipmentSchema,
  airHandler: airHandlerSchema,
  parts: z.array(partSchema).describe('Ducts as two trees that meet at the air handler.'),
  leakage: z
    .array(
      z.strictObject({
        side: z.enum(['supply', 'return']),
        flow: quantity('airflow', 'Leakage of that side at 25 Pa.', { least: '0 cfm', most: '5000 cfm' }),
        exponent: quantity('number', 'Exponent.', { least: '0.5', most: '1' }).optional(),
      }),
    )
    .describe('Tested leakage of a side, spread over the parts that state no leak of their own.')
    .optional(),
});

/** How far the house was built when its ducts were tested. */
export const leakageStages = [
  'rough-in with air handler',
  'rough-in without air handler',
  'after construction',
  'as found',
] as const;

export const leakageTestSchema = z.strictObject({
  id: id('Name.'),
  system: reference('System tested.'),
  stage: z.enum(leakageStages),
  place: z.enum(['total', 'outdoors']),
  side: z.enum(['both', 'supply', 'return']).optional(),
  flow: quantity('airflow', 'Flow at 25 Pa.', { least: '0 cfm', most: '5000 cfm' }),
  known: knownSchema.optional(),
});

export const codeSchema = z.strictObject({
  edition: text('Energy code adopted, as "IECC 2018".').optional(),
  climateZone: text('As "4A".').optional(),
  supplyLeakageLimit: quantity('ratio', 'The project’s limit, share of fan flow.', {
    least: '0 %',
    most: '50 %',
  }).optional(),
  returnLeakageLimit: quantity('ratio', 'The project’s limit, share of fan flow.', {
    least: '0 %',
    most: '50 %',
  }).optional(),
});

export type JobLeak = z.infer<typeof leakSchema>;
export type JobFilter = z.infer<typeof filterSchema>;
export type JobTerminal = z.infer<typeof terminalSchema>;
