import { fuels } from '@airledger/engine';
import { z } from 'zod';
import { count, flag, quantity } from './fields.ts';

/** What a house burns or draws. */
export const fuelField = z.enum(fuels);

const setPoint = (help: string) => quantity('temperature', help, { least: '40 °F', most: '95 °F' });
const hour = (help: string) => count(help, 0, 24);
const month = (help: string) => count(help, 1, 12);
const price = (help: string) => quantity('energyPrice', help, { least: '0 $/kWh', most: '5 $/kWh' });
const monthly = (help: string) => quantity('energy', help, { least: '0 kWh', most: '1000000 kWh' });

const setbackSchema = z.strictObject({
  from: hour('Hour of the day at which it begins.'),
  to: hour('Hour at which it ends; past midnight when smaller.'),
  heating: setPoint('Thermostat in winter meanwhile.').optional(),
  cooling: setPoint('Thermostat in summer meanwhile.').optional(),
});

const tariffSchema = z.strictObject({
  fuel: fuelField,
  price: price('Price of it, where no block and no period says otherwise.').optional(),
  standing: quantity('number', 'Standing charge a month.', { least: '0', most: '1000' }).optional(),
  otherUse: monthly(
    'What the rest of the house draws in a month; it fills the lower blocks first.',
  ).optional(),
});

const blockSchema = z.strictObject({
  fuel: fuelField,
  above: monthly('Use of a month from which on it costs this.'),
  price: price('Price of what lies above.'),
});

const periodSchema = z.strictObject({
  fuel: fuelField,
  from: hour('Hour of the day at which it begins.'),
  to: hour('Hour at which it ends; past midnight when smaller.'),
  firstMonth: month('First month of it, 1 to 12; January when absent.').optional(),
  lastMonth: month('Last month of it; December when absent.').optional(),
  weekdays: flag('On weekdays only.').optional(),
  price: price('Price within it.'),
});

/** Thermostat through the day and prices of energy, for the year. */
export const seasonSchema = z.strictObject({
  setbacks: z.array(setbackSchema).describe('Hours in which the thermostat stands elsewhere.').optional(),
  tariffs: z.array(tariffSchema).describe('What each fuel costs; usual prices when absent.').optional(),
  blocks: z.array(blockSchema).describe('Dearer or cheaper above a use of the month.').optional(),
  periods: z.array(periodSchema).describe('Prices by time of use.').optional(),
});
