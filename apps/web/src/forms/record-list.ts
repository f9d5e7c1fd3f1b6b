import { type Job, valueAt } from '@airledger/job';
import { type Form, type FormName, forms } from './forms.ts';

/** A record of the job with its form. */
export type JobRecord = {
  readonly path: string;
  readonly name: string;
  readonly group: string;
  readonly form: FormName;
};

type Named = { readonly id: string; readonly name?: string };

const nameOf = ({ id, name }: Named): string => name ?? sentence(id.replaceAll('-', ' '));

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const whole: readonly JobRecord[] = (['job', 'site', 'indoor', 'house', 'code', 'repairPrices'] as const).map(
  (form) => ({
    path: forms[form].pattern,
    name: forms[form].title,
    group: 'Whole house',
    form,
  }),
);

const listOf = (
  group: string,
  form: FormName,
  base: string,
  items: readonly Named[] | undefined,
  within = '',
): readonly JobRecord[] =>
  (items ?? []).map((item) => ({
    path: `${base}/${item.id}`,
    name: `${within}${nameOf(item)}`,
    group,
    form,
  }));

/** Every record of a job that has a form, in the order of a survey. */
export const recordsOf = (job: Job): readonly JobRecord[] => [
  ...whole,
  ...listOf('Rooms', 'room', 'rooms', job.rooms),
  ...job.rooms.flatMap((room) =>
    listOf('Walls and windows', 'surface', `rooms/${room.id}/surfaces`, room.surfaces, `${nameOf(room)}: `),
  ),
  ...listOf('Zones', 'zone', 'zones', job.zones),
  ...(job.zones ?? []).flatMap((zone) =>
    listOf(
      'Walls and windows',
      'zoneSurface',
      `zones/${zone.id}/surfaces`,
      zone.surfaces,
      `${nameOf(zone)}: `,
    ),
  ),
  ...listOf('Doors and transfer paths', 'door', 'doors', job.doors),
  ...listOf('Doors and transfer paths', 'transfer', 'transfers', job.transfers),
  ...(job.systems ?? []).flatMap((system): readonly JobRecord[] => [
    { path: `systems/${system.id}`, name: nameOf(system), group: 'Systems', form: 'system' },
    {
      path: `systems/${system.id}/airHandler`,
      name: `${nameOf(system)}: air handler, fan, filter, coil`,
      group: 'Systems',
      form: 'airHandler',
    },
    ...listOf('Ducts', 'part', `systems/${system.id}/parts`, system.parts),
    ...system.parts.flatMap((part): readonly JobRecord[] =>
      part.terminal
        ? [
            {
              path: `systems/${system.id}/parts/${part.id}/terminal`,
              name: nameOf(part.terminal),
              group: 'Registers and grilles',
              form: 'register',
            },
          ]
        : [],
    ),
  ]),
  ...listOf('Ventilators', 'ventilator', 'ventilators', job.ventilators),
  ...listOf('Leakage tests', 'leakageTest', 'leakageTests', job.leakageTests),
];

/** Id of the record at a path; undefined for one that has none, as the site or an air handler. */
export const idOf = (job: Job, path: string): string | undefined =>
  (valueAt(job, path) as Named | undefined)?.id;

export const formOf = ({ form }: JobRecord): Form => forms[form];
