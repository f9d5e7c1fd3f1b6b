import { z } from 'zod';
import { count, id, pointField, reference, text } from './fields.ts';

export const sha256 = z
  .string()
  .check((ctx) => {
    if (!/^[0-9a-f]{64}$/.test(ctx.value))
      ctx.issues.push({
        code: 'custom',
        input: ctx.value,
        message: 'SHA-256',
        params: {
          expected: 'a SHA-256 of 64 lower-case hexadecimal digits',
          remedy: 'Add the photo again in the program, which works it out.',
        },
      });
  })
  .describe('SHA-256 of the bytes, which names them.');

export const photoSchema = z.strictObject({
  id: id('Name.'),
  sha256,
  of: reference('Record or field that it shows, by ids; it may be gone by now.')
    .meta({ examples: ['systems/main/parts/run-2'] })
    .optional(),
  spot: pointField('Where on the plan it is pinned.').optional(),
  storey: count('Storey of that plan.', -1, 7).optional(),
  caption: text('What is to be seen.').optional(),
  taken: text('When, as 2025-06-30 10:15.').optional(),
  by: text('Who took it.').optional(),
});

/** Media types of photos and drawings that a job can hold. */
export const fileTypes = ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'] as const;

export const fileSchema = z.strictObject({
  sha256,
  type: z.enum(fileTypes).describe('Media type.'),
  data: text('The bytes, in base64.'),
});

/** A photo with what it shows; its bytes are named by their SHA-256. */
export type JobPhoto = z.infer<typeof photoSchema>;
/** Bytes of a photo or drawing in a file that travels. */
export type JobFile = z.infer<typeof fileSchema>;
/** One of `fileTypes`. */
export type FileType = (typeof fileTypes)[number];
