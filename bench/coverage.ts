import type { ReadingSet } from '../tests/fixtures/case-readings.ts';
import { fitCase, scoreCase, scoreSlip, type Tally } from './coverage-case.ts';
import { keptRun } from './kept-run.ts';
import { type Line, limited, plain } from './line.ts';
import { median } from './measure.ts';

/** Houses of a quick run: enough to see that everything runs, too few for limits to mean much. */
const quickHouses = 3;
/** Slips are looked for in every fourth house: each costs five fits of each set. */
const slipEvery = 4;

const sets: readonly ReadingSet[] = [
  'two',
  'ordinary',
  'core',
  'core+pan',
  'core+passive',
  'core+hood',
  'both',
  '+temps',
  'all',
];
const slipSets: readonly ReadingSet[] = ['core', 'both', '+temps'];

type Limit = { readonly name: string; readonly least?: number; readonly most?: number };
/** What is asked of each set, as shares. */
const limits: Partial<Record<ReadingSet, readonly Limit[]>> = {
  two: [
    { name: 'group top 2', least: 0.73 },
    { name: 'leak top 2', least: 0.2 },
  ],
  core: [
    { name: 'group top 2', least: 0.84 },
    { name: 'leak top 2', least: 0.25 },
    { name: 'slip top 2', least: 0.9 },
    { name: 'false alarm', most: 0.15 },
  ],
  'core+pan': [{ name: 'leak top 2', least: 0.45 }],
  'core+passive': [
    { name: 'run 1st', least: 0.7 },
    { name: 'run top 2', least: 0.9 },
  ],
  'core+hood': [
    { name: 'range register', least: 0.87, most: 0.93 },
    { name: 'run 1st', least: 0.88 },
    { name: 'run top 2', least: 0.97 },
  ],
  both: [
    { name: 'range register', least: 0.87, most: 0.93 },
    { name: 'group top 2', least: 0.86 },
    { name: 'leak top 2', least: 0.5 },
    { name: 'slip top 2', least: 0.85 },
    { name: 'false alarm', most: 0.15 },
  ],
  '+temps': [
    { name: 'range register', least: 0.87, most: 0.93 },
    { name: 'group top 2', least: 0.88 },
    { name: 'leak top 2', least: 0.55 },
    { name: 'slip top 2', least: 0.9 },
    { name: 'false alarm', most: 0.15 },
  ],
  all: [
    { name: 'range register', least: 0.87, most: 0.93 },
    { name: 'leak top 2', least: 0.6 },
  ],
};
/** Asked of every set with ten readings or more. */
const everySet: readonly Limit[] = [
  { name: 'range outdoors', least: 0.85, most: 0.93 },
  { name: 'range ordinary leaks', least: 0.86, most: 0.93 },
  { name: 'range ordinary, house with defect', least: 0.8 },
  { name: 'said 90: true', least: 0.8 },
];

/** Figures told as they are, without a limit. */
const told = [
  'register error',
  'error supply',
  'error return',
  'customary register error',
  'customary error supply',
  'customary error return',
  'range ordinary, clean house',
  'range defect leaks',
  'said 60: true',
  'leak 1st',
  'leak by run top 2',
  'group 1st',
  'run 1st',
  'run top 2',
  'slip 1st',
];

/**
 * The table of synthetic truths: houses drawn with laws and errors that the estimator does not know, read by several
 * sets of instruments, calibrated, and compared with what they are.
 *
 * @param argument houses as `300` or `101-200`, and after a comma a file that keeps what is done, so that a long run can
 *   go on later
 */
export function coverage(argument = String(quickHouses)): Line[] {
  const { houses, done, keep } = keptRun<{ tally: Tally }>(argument);
  for (const house of houses) {
    for (const set of sets) {
      const key = `${house} ${set}`;
      if (done.has(key)) continue;
      const tally: Tally = {};
      scoreCase(fitCase(house, set), tally);
      if (house % slipEvery === 1 && slipSets.includes(set)) scoreSlip(house, set, tally);
      keep(key, { tally });
    }
  }
  return sets.flatMap((set) =>
    linesOf(
      set,
      [...done].flatMap(([key, { tally }]) => (key.endsWith(` ${set}`) ? [tally] : [])),
    ),
  );
}

function linesOf(set: ReadingSet, tallies: readonly Tally[]): Line[] {
  const values = (name: string) => tallies.flatMap((tally) => tally[name] ?? []);
  const share = (name: string) => {
    const all = values(name);
    const sum = all.reduce((total, value) => total + value, 0);
    return name.endsWith('register error') ? median(all) : sum / all.length;
  };
  const label = (name: string) => `${set}, ${name} (${values(name).length})`;
  const many = set !== 'two';
  const asked = [...(limits[set] ?? []), ...(many ? everySet : [])].filter(
    ({ name }) => values(name).length > 0,
  );
  return [
    ...asked.flatMap(({ name, least, most }) => [
      ...(least === undefined ? [] : [limited(label(name), share(name), '', 'least', least)]),
      ...(most === undefined ? [] : [limited(label(name), share(name), '', 'most', most)]),
    ]),
    ...told
      .filter((name) => values(name).length > 0 && !asked.some((one) => one.name === name))
      .map((name) => plain(label(name), share(name), '')),
  ];
}
