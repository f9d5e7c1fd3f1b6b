import { z } from 'zod';
import { count, id, pointField, quantity } from './fields.ts';
import { sha256 } from './photo-schema.ts';

/** A picture of a plan that lies under the drawing, to trace. */
export const underlaySchema = z.strictObject({
  id: id('Name.'),
  sha256,
  storey: count('Storey under whose drawing it lies.', -1, 7).optional(),
  corner: pointField('Where its lower left corner lies.'),
  width: quantity('length', 'How wide the picture is in the house.', { least: '1 ft', most: '3000 ft' }),
  rotation: quantity('angle', 'Turned counter-clockwise about that corner.', {
    least: '0°',
    most: '360°',
  }).optional(),
  dim: quantity('ratio', 'How far it is faded: 0 % is as it came.', {
    least: '0 %',
    most: '100 %',
  }).optional(),
});

/** A picture of a plan under the drawing, as typed. */
export type JobUnderlay = z.infer<typeof underlaySchema>;
