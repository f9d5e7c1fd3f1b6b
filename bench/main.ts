import { keepsLimit, type Line, lineText } from './line.ts';

/** Every benchmark by name; each is loaded only when it runs. */
const benches: Record<string, () => Promise<Line[]>> = {
  network: async () => (await import('./network.ts')).network(),
  growth: async () => (await import('./growth.ts')).growth(),
  drag: async () => (await import('./drag.ts')).drag(),
  account: async () => (await import('./account.ts')).account(),
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in benches));
if (unknown.length > 0) {
  console.error(`no benchmark '${unknown.join("', '")}'; there are: ${Object.keys(benches).join(', ')}`);
  process.exit(2);
}

let missed = 0;
for (const name of wanted.length > 0 ? wanted : Object.keys(benches)) {
  console.log(`# ${name}`);
  for (const line of await benches[name]!()) {
    console.log(lineText(line));
    if (!keepsLimit(line)) missed++;
  }
}
if (missed > 0) {
  console.error(`${missed} limit${missed === 1 ? '' : 's'} missed`);
  process.exit(1);
}
