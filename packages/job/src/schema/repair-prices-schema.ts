import { z } from 'zod';
import { nameFrom, quantity, text } from './fields.ts';

/** Prices of this job for repairs, in place of those of the catalogue. */
export const repairPricesSchema = z.strictObject({
  date: text('When they were good, as 2025-06.'),
  source: text('Where they come from.').optional(),
  labour: quantity('number', 'Dollars for an hour of work, all in.', { least: '0', most: '1000' }).optional(),
  test: quantity('number', 'Dollars for a test of the ducts’ leakage.', {
    least: '0',
    most: '5000',
  }).optional(),
  repairs: z
    .array(
      z.strictObject({
        repair: nameFrom('repairs', 'Row of the catalogue of repairs.'),
        material: quantity('number', 'Dollars of material for each unit of the row.', {
          least: '0',
          most: '20000',
        }).optional(),
        hours: quantity('number', 'Hours for each unit where one can stand and reach.', {
          least: '0',
          most: '500',
        }).optional(),
      }),
    )
    .describe('Rows with prices of their own.')
    .optional(),
});
