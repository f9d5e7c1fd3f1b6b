import { z } from 'zod';
import {
  clockedField,
  id,
  leakPointField,
  momentField,
  nameFrom,
  quantity,
  reference,
  text,
} from './fields.ts';
import { leakageStages } from './system-schema.ts';

/** What can be read in a house, in the words of the trade. */
export const readingKinds = [
  'duct leakage',
  'house leakage',
  'plenum static',
  'duct static',
  'pressure pan',
  'fan flow',
  'register flow',
  'room pressure',
  'register temperature',
  'plenum temperature',
  'room temperature',
  'fan power',
] as const;

/** Where a probe sits: in the air handler, or at an end of a duct. */
export const readingPlaces = [
  'supply plenum',
  'before coil',
  'after filter',
  'return plenum',
  'start',
  'end',
] as const;

const setupSchema = z
  .strictObject({
    fan: z.enum(['off', 'heating', 'cooling']).describe('Fan of the air handler.').optional(),
    registers: z.enum(['open', 'sealed']).describe('Registers and grilles.').optional(),
    except: z
      .array(reference('Register or grille.'))
      .describe('Registers that stand the other way: left open among sealed ones, or sealed among open ones.')
      .optional(),
    filter: z.enum(['in', 'out']).describe('Filter.').optional(),
    doors: z.enum(['as surveyed', 'all open', 'all shut']).describe('Doors inside the house.').optional(),
    side: z
      .enum(['both', 'supply', 'return'])
      .describe('Side under test, when the two are cut apart at the cabinet.')
      .optional(),
    ductPressure: quantity('pressure', 'Pressure that a tester holds in the ducts, to the house.', {
      least: '-500 Pa',
      most: '500 Pa',
      examples: ['25 Pa', '0.1 in.wc'],
    }).optional(),
    housePressure: quantity('pressure', 'Pressure that a blower door holds in the house, to outdoors.', {
      least: '-100 Pa',
      most: '100 Pa',
      examples: ['-50 Pa', '-0.2 in.wc'],
    }).optional(),
  })
  .describe('How house and ducts stood; what is usual for such a reading when absent.');

const weatherSchema = z
  .strictObject({
    outdoor: quantity('temperature', 'Outdoor temperature.', { least: '-80 °F', most: '130 °F' }).optional(),
    wind: z.enum(['calm', 'light', 'strong']).describe('Wind at the house.').optional(),
  })
  .describe('Weather while it was read.');

const riseSchema = z
  .strictObject({
    output: quantity('power', 'Heat that the air takes up: of electric heat its volts times amps.', {
      examples: ['10.2 kW', '48 kBtu/h'],
    }).optional(),
    gas: clockedField.optional(),
    heatingValue: quantity(
      'heatingValue',
      'Of the gas as the meter counts it, from the supplier: less at altitude.',
    ).optional(),
    efficiency: quantity('ratio', 'Share of the gas’s heat that reaches the air while the burner runs.', {
      examples: ['80 %', '0.8'],
    }).optional(),
    fanPower: quantity(
      'electricPower',
      'Power of the fan, where it stands between the probes: its heat is in the rise.',
    ).optional(),
    supply: quantity('temperature', 'Supply air, out of sight of the heat and steady.').optional(),
    return: quantity('temperature', 'Return air, just before the air handler.').optional(),
  })
  .describe('Fan flow by temperature rise, while heating steadily.');

const plenumSchema = z
  .strictObject({
    running: quantity(
      'pressure',
      'Static pressure of the supply plenum with everything as it usually runs.',
      {
        examples: ['0.31 in.wc', '77 Pa'],
      },
    ).optional(),
    read: quantity('pressure', 'The same while the flow was read.', {
      examples: ['0.28 in.wc', '70 Pa'],
    }).optional(),
  })
  .describe('Brings a fan flow from the pressure at which it was read to the one in use.');

/**
 * One reading of an instrument, as it was shown. Values have no limits but their dimension: what is impossible is
 * kept and doubted, never refused.
 */
export const readingSchema = z.strictObject({
  id: id('Name.'),
  kind: z.enum(readingKinds).describe('What was read.'),
  state: reference('State of the house in which it was read; the first when absent.').optional(),
  of: reference('System, duct part, register, room or zone it was read at.').optional(),
  at: z.enum(readingPlaces).describe('Where the probe sat.').optional(),
  to: reference(
    'Leakage: total or outdoors. A room’s pressure: outdoors, or the space it is read against.',
  ).optional(),
  stage: z.enum(leakageStages).describe('Of a leakage test: how far the house was built.').optional(),
  flow: quantity('airflow', 'Airflow, as the instrument shows it.').optional(),
  rise: riseSchema.optional(),
  plenum: plenumSchema.optional(),
  points: z.array(leakPointField).describe('Several points of one leakage test.').optional(),
  pressure: quantity('pressure', 'Pressure with its sign, as the instrument shows it.', {
    examples: ['0.32 in.wc', '-80 Pa'],
  }).optional(),
  temperature: quantity('temperature', 'Temperature.').optional(),
  power: quantity('electricPower', 'Electric power of the fan.').optional(),
  instrument: nameFrom('instruments', 'Instrument, from the table or your own.').optional(),
  accuracy: quantity(
    'ratio',
    'One standard deviation as a share of the reading, instead of the instrument’s.',
    {
      least: '0.1 %',
      most: '100 %',
      examples: ['3 %', '0.03'],
    },
  ).optional(),
  instrumentAir: quantity('temperature', 'Air that went through the instrument.', {
    least: '-40 °F',
    most: '180 °F',
  }).optional(),
  setup: setupSchema.optional(),
  weather: weatherSchema.optional(),
  by: text('Who read it.').optional(),
  when: momentField.optional(),
  note: text('Anything worth keeping.').optional(),
});

/** A reading as its sheet keeps it. */
export type JobReading = z.infer<typeof readingSchema>;
/** One of `readingKinds`. */
export type ReadingKind = (typeof readingKinds)[number];
