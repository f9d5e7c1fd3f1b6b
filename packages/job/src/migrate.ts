import { currentVersion } from './schema/job-schema.ts';

type Loose = Record<string, unknown>;
const isRecord = (value: unknown): value is Loose =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const records = (value: unknown): readonly Loose[] => (Array.isArray(value) ? value.filter(isRecord) : []);

/** The record with a field under another name, at the same place. */
const renamed = (record: Loose, from: string, to: string): Loose =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key === from ? to : key, value]));

const renamedInPath = (path: unknown): unknown =>
  typeof path === 'string'
    ? path
        .replace(/^(systems\/[^/]+)\/ducts(?=\/|$)/, '$1/parts')
        .replace(/^(systems\/[^/]+)\/thermostat$/, '$1/thermostatRoom')
    : path;

/** Steps from each version to the next. */
const steps: readonly ((job: Loose) => Loose)[] = [
  // 0 → 1: "ducts" became "parts" when plenums joined them, and "thermostat" says that it names a room.
  (job) => ({
    ...job,
    ...(Array.isArray(job.systems) && {
      systems: job.systems.map((system) =>
        isRecord(system)
          ? renamed(renamed(system, 'ducts', 'parts'), 'thermostat', 'thermostatRoom')
          : system,
      ),
    }),
    ...(Array.isArray(job.states) && {
      states: records(job.states).map((state) => ({
        ...state,
        changes: records(state.changes).map((change) =>
          Object.fromEntries(
            Object.entries(change).map(([key, value]) => [
              key,
              ['set', 'add', 'remove'].includes(key) ? renamedInPath(value) : value,
            ]),
          ),
        ),
      })),
    }),
  }),
];

/** An older job brought to the current version; any other value is returned as it is. */
export const migrate = (job: unknown): unknown => {
  if (!isRecord(job) || typeof job.schemaVersion !== 'number' || !Number.isInteger(job.schemaVersion))
    return job;
  let migrated = job;
  for (let version = job.schemaVersion; version >= 0 && version < currentVersion; version++)
    migrated = { ...steps[version]!(migrated), schemaVersion: version + 1 };
  return migrated;
};
