#!/usr/bin/env node
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

// The tsconfig is named, or tsx would take the one of the folder the user happens to stand in.
register({ tsconfig: fileURLToPath(new URL('../../../tsconfig.json', import.meta.url)) });
const { main } = await import('../src/main.ts');
await main(process.argv.slice(2));
