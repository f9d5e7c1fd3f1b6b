/** Writes docs/job.schema.json: `npx tsx scripts/write-schema.ts`. A test fails while it is out of date. */
import { writeFileSync } from 'node:fs';
import { jobJsonSchema } from '@airledger/job';

writeFileSync(
  new URL('../docs/job.schema.json', import.meta.url),
  `${JSON.stringify(jobJsonSchema(), null, 2)}\n`,
);
