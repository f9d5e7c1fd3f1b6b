import { z } from 'zod';
import { instruments } from './readings/reading-tables.ts';
import { repairNames } from './repairs/catalogue.ts';
import { jobSchema } from './schema/job-schema.ts';
import { assemblies, filters, fittings, materials, stations } from './survey/tables.ts';
import { howKnownWords } from './typed.ts';

type Json = Record<string, unknown>;

/** Names that an editor offers for a field whose meta says which table it names from. */
const tables: Readonly<Record<string, readonly string[]>> = {
  stations: [...stations.values()].map((row) => row.id),
  assemblies: [...assemblies.values()].map((row) => row.name),
  materials: [...materials.values()].map((row) => row.name),
  fittings: [...fittings.values()].map((row) => row.name),
  filters: [...filters.values()].map((row) => row.name),
  instruments: instruments.map((row) => row.name),
  repairs: repairNames,
};

const typed = (value: Json): Json => ({
  anyOf: [
    value,
    {
      type: 'object',
      properties: {
        value,
        known: { enum: howKnownWords, description: 'How it is known.' },
        note: { type: 'string', description: 'Anything worth keeping.' },
      },
      required: ['value'],
      additionalProperties: false,
    },
  ],
});

const definitions: Json = {
  quantity: {
    description:
      'A quantity with its unit, in either unit system, with a range where it is uncertain: "12 ft 6 in", "R-6 ± 1", "30 % (10 to 50 %)". As { value, known, note } it says how it is known.',
    ...typed({ type: 'string' }),
  },
  number: {
    description: 'A number or a share, as text when it has a range: "0.65", "15 % (4 to 30 %)".',
    ...typed({ type: ['string', 'number'] }),
  },
};

/** The job file as a JSON Schema (draft 2020-12), for editors: descriptions, units, examples, names of the tables. */
export const jobJsonSchema = (): Json => {
  const schema = z.toJSONSchema(jobSchema, {
    unrepresentable: 'any',
    io: 'input',
    override: ({ jsonSchema }) => {
      const field = jsonSchema as Json;
      if (typeof field.unit === 'string')
        field.$ref = ['ratio', 'number'].includes(field.unit) ? '#/$defs/number' : '#/$defs/quantity';
      const names = typeof field.names === 'string' ? tables[field.names] : undefined;
      if (names) {
        field.anyOf = [{ enum: names }, { type: 'string' }];
        delete field.type;
        delete field.names;
      }
    },
  }) as Json;
  return {
    ...schema,
    $id: 'job.schema.json',
    title: 'Airledger job file',
    $defs: { ...(schema.$defs as Json | undefined), ...definitions },
  };
};
