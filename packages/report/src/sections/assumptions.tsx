import type { Survey } from '@airledger/engine';
import { DataTable } from '../data-table.tsx';
import { capital, type HandoverInput, handedOver } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';
import { words } from '../typed-words.ts';

/** Every value that nobody measured, read or estimated in this house, with what stands in its place. */
export const Assumptions = (input: HandoverInput) => {
  const { survey } = handedOver(input);
  const rows = assumed(survey);
  return (
    <section>
      <h2 id="assumed">What is assumed</h2>
      {rows.length === 0 && <p>Nothing: every value was measured, read off or estimated in the house.</p>}
      {kinds.map(({ defaulted, caption }) => {
        const own = rows.filter((row) => row.defaulted === defaulted);
        if (own.length === 0) return null;
        return (
          <DataTable
            key={caption}
            caption={caption}
            columns={[
              { head: 'Value', width: 16 },
              { head: 'Taken as', width: 12 },
              { head: 'Where', width: 38 },
              { head: 'Source' },
            ]}
            rows={own.map(({ field, typed, where, source }) => [
              capital(field),
              typed,
              where.join('; '),
              source,
            ])}
          />
        );
      })}
    </section>
  );
};

const kinds = [
  { defaulted: false, caption: 'Assumed by the surveyor' },
  { defaulted: true, caption: 'Filled in by default, because the survey is silent' },
] as const;

type Assumed = {
  readonly field: string;
  readonly typed: string;
  readonly defaulted: boolean;
  readonly source: string;
  readonly where: string[];
};

/** Facts that are defaults or assumptions; the same value of the same field from the same source is one row. */
const assumed = (survey: Survey): readonly Assumed[] => {
  const name = nameOf(survey);
  const rows = new Map<string, Assumed>();
  for (const [path, fact] of Object.entries(survey.facts)) {
    if (!fact.defaulted && fact.howKnown !== 'assumed') continue;
    const segments = path.split('/');
    const field = words(segments.at(-1)!);
    const { typed, defaulted, source = 'no source' } = fact;
    const key = [field, typed, defaulted, source].join('|');
    const row = rows.get(key) ?? { field, typed, defaulted, source, where: [] };
    rows.set(key, row);
    const where = whereText(segments.slice(0, -1), name);
    if (!row.where.includes(where)) row.where.push(where);
  }
  return [...rows.values()].toSorted((a, b) => a.field.localeCompare(b.field, 'en'));
};

const lists = new Set([
  'rooms',
  'zones',
  'systems',
  'parts',
  'surfaces',
  'doors',
  'transfers',
  'ventilators',
]);

/** The thing that a fact belongs to: its own name where it has one, without the names of lists on the way. */
const whereText = (segments: readonly string[], name: (id: string) => string): string => {
  const ids = segments.filter((segment) => !lists.has(segment));
  const shown = ids.map((id) => (name(id) === id ? words(id) : name(id)));
  return shown.length === 0
    ? 'house'
    : shown.length > 1 && segments[0] === 'systems'
      ? shown.slice(1).join(', ')
      : shown.join(', ');
};
