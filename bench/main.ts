import { keepsLimit, type Line, lineText } from './line.ts';

/** Every benchmark by name; each is loaded only when it runs. What stands behind a colon is its argument. */
const benches: Record<string, (argument?: string) => Promise<Line[]>> = {
  network: async () => (await import('./network.ts')).network(),
  growth: async () => (await import('./growth.ts')).growth(),
  drag: async () => (await import('./drag.ts')).drag(),
  'first-page': async () => (await import('./first-page.ts')).firstPage(),
  balance: async () => (await import('./balance.ts')).balance(),
  season: async () => (await import('./season.ts')).seasonBench(),
  planner: async (argument) => (await import('./planner.ts')).planner(argument),
  account: async () => (await import('./account.ts')).account(),
  calibrate: async () => (await import('./calibrate.ts')).calibrate(),
  explain: async () => (await import('./explain.ts')).explain(),
  'next-reading': async () => (await import('./next-reading.ts')).nextReadingBench(),
  'measuring-order': async (argument) => (await import('./measuring-order.ts')).measuringOrder(argument),
  coverage: async (argument) => (await import('./coverage.ts')).coverage(argument),
  'two-readings': async (argument) => (await import('./two-readings.ts')).twoReadings(argument),
};

const wanted = process.argv.slice(2);
const nameOf = (asked: string): string => asked.split(':')[0]!;
const unknown = wanted.filter((asked) => !(nameOf(asked) in benches));
if (unknown.length > 0) {
  console.error(`no benchmark '${unknown.join("', '")}'; there are: ${Object.keys(benches).join(', ')}`);
  process.exit(2);
}

let missed = 0;
for (const asked of wanted.length > 0 ? wanted : Object.keys(benches)) {
  console.log(`# ${asked}`);
  for (const line of await benches[nameOf(asked)]!(asked.split(':')[1])) {
    console.log(lineText(line));
    if (!keepsLimit(line)) missed++;
  }
}
if (missed > 0) {
  console.error(`${missed} limit${missed === 1 ? '' : 's'} missed`);
  process.exit(1);
}
