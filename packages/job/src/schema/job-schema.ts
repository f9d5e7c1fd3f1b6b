import { z } from 'zod';
import { id, reference, text } from './fields.ts';
import {
  aboutSchema,
  doorSchema,
  houseSchema,
  indoorSchema,
  knownSchema,
  roomSchema,
  siteSchema,
  type surfaceSchema,
  transferSchema,
  ventilatorSchema,
  zoneSchema,
} from './house-schema.ts';
import { fileSchema, photoSchema } from './photo-schema.ts';
import { readingSchema } from './reading-schema.ts';
import { repairPricesSchema } from './repair-prices-schema.ts';
import { seasonSchema } from './season-schema.ts';
import { codeSchema, leakageTestSchema, type partSchema, systemSchema } from './system-schema.ts';
import { underlaySchema } from './underlay-schema.ts';

/** The version that this program writes. */
export const currentVersion = 1;

const why = text('Why, for the one who reads it later.').optional();
const path = (help: string) => reference(help).meta({ examples: ['systems/main/parts/run-2/insulation'] });

const changeSchema = z.union([
  z.strictObject({ set: path('Field to change, by ids.'), to: z.unknown(), why }),
  z.strictObject({ add: path('List to add to.'), item: z.unknown(), why }),
  z.strictObject({ remove: path('Record or field to take away.'), why }),
]);

const stateSchema = z.strictObject({
  id: id('Name, as as-found.'),
  name: text('As the report should call it.').optional(),
  note: text('What this state is.').optional(),
  changes: z.array(changeSchema).describe('Changes on the state before.'),
});

export const jobSchema = z.strictObject({
  $schema: z.string().optional(),
  schemaVersion: z.literal(currentVersion).describe('Version of this file format.'),
  name: text('Name of the house.'),
  about: aboutSchema.optional(),
  known: knownSchema.describe('How values are known that do not say so themselves.').optional(),
  site: siteSchema,
  indoor: indoorSchema.optional(),
  house: houseSchema.optional(),
  rooms: z.array(roomSchema).min(1).describe('Conditioned rooms.'),
  zones: z.array(zoneSchema).describe('Attic, crawlspace, garage and the like.').optional(),
  doors: z.array(doorSchema).optional(),
  transfers: z.array(transferSchema).optional(),
  systems: z.array(systemSchema).describe('Heating and cooling systems with their ducts.').optional(),
  ventilators: z.array(ventilatorSchema).optional(),
  leakageTests: z.array(leakageTestSchema).optional(),
  readings: z
    .array(readingSchema)
    .describe('What instruments showed, each in the state of the house that it names.')
    .optional(),
  code: codeSchema.optional(),
  season: seasonSchema.describe('Thermostat through the day and prices of energy.').optional(),
  repairPrices: repairPricesSchema
    .describe('Prices of repairs, in place of those of the catalogue.')
    .optional(),
  photos: z.array(photoSchema).describe('Photos, each with what it shows.').optional(),
  underlays: z.array(underlaySchema).describe('Pictures of plans under the drawing.').optional(),
  files: z
    .array(fileSchema)
    .describe('Bytes of photos and drawings in a file that travels; the store keeps them apart.')
    .optional(),
  states: z
    .array(stateSchema)
    .describe('The same house at different times, each a set of changes on the one before.')
    .optional(),
});

/** A job as its file keeps it: the house as typed, its states, photos and drawings. `docs/job-file.md` explains each field. */
export type Job = z.infer<typeof jobSchema>;
/** One change of a state: a field set, a record added, or either taken away. */
export type Change = z.infer<typeof changeSchema>;
/** The house at one time, as changes on the state before it. */
export type State = z.infer<typeof stateSchema>;
/** A heating and cooling system with its ducts, as typed. */
export type JobSystem = z.infer<typeof systemSchema>;
/** A plenum, trunk, run or bypass, as typed. */
export type JobPart = z.infer<typeof partSchema>;
/** A conditioned room, as typed. */
export type JobRoom = z.infer<typeof roomSchema>;
/** A buffer zone, as typed: attic, crawlspace, garage and the like. */
export type JobZone = z.infer<typeof zoneSchema>;
/** A wall, window, ceiling or other surface of a room or zone, as typed. */
export type JobSurface = z.infer<typeof surfaceSchema>;
