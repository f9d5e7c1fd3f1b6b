import { formatQuantity } from '@airledger/engine';
import { parseFanPoint } from '../compound.ts';
import type { JobError } from '../job-error.ts';
import { materials, named } from '../survey/tables.ts';
import { type Complain, collect, placed } from './complaints.ts';
import { isLoose, type Loose, recordAt, recordsAt, siAt, textAt } from './loose.ts';

/** Parts on the way from one to the air handler; `loop` when the way comes back on itself. */
const wayIn = (
  start: Loose,
  byId: ReadonlyMap<string, Loose>,
): { readonly ids: readonly string[]; readonly loop: boolean } => {
  const ids: string[] = [];
  let part: Loose | undefined = start;
  while (part) {
    const id = textAt(part, 'id') ?? '';
    if (ids.includes(id)) return { ids: ids.slice(ids.indexOf(id)), loop: true };
    ids.push(id);
    part = byId.get(textAt(part, 'joins') ?? '');
  }
  return { ids, loop: false };
};

const isSide = (side: unknown): side is 'supply' | 'return' => side === 'supply' || side === 'return';

const checkTree = (complain: Complain, system: Loose, path: string): void => {
  const parts = placed(system, path, 'parts');
  const byId = new Map(parts.map(({ record }) => [textAt(record, 'id') ?? '', record]));
  const joined = new Set(parts.map(({ record }) => textAt(record, 'joins')));
  const told = new Set<string>();
  for (const { path: at, record } of parts) {
    const { ids, loop } = wayIn(record, byId);
    const key = [...ids].sort().join(' ');
    if (loop && !told.has(key)) {
      told.add(key);
      complain(
        `${at}/joins`,
        `a loop: ${[...ids, ids[0]].join(' → ')}`,
        'a tree that leads to the air handler',
        'Let one of them join another part, or air-handler.',
      );
    }
    const parent = byId.get(textAt(record, 'joins') ?? '');
    if (parent && isSide(record.side) && isSide(parent.side) && record.side !== parent.side)
      complain(
        `${at}/joins`,
        `"${String(record.joins)}", which is on the ${parent.side} side`,
        `a ${record.side} part`,
        'Join a part of the same side; a bypass says with endsOn where it ends.',
      );
    const along = siAt(record, 'at', 'length');
    const length = parent ? siAt(parent, 'length', 'length') : undefined;
    if (along !== undefined && length !== undefined && along > length + 1e-9)
      complain(
        `${at}/at`,
        `${JSON.stringify(isLoose(record.at) ? record.at.value : record.at)}`,
        `a place on "${String(record.joins)}", which is ${formatQuantity(length, 'length', 'ip')} (${formatQuantity(length, 'length', 'si')}) long`,
        'Shorten the distance, or correct the length of the part it joins.',
      );
    if (record.at !== undefined && record.joins === 'air-handler')
      complain(
        `${at}/at`,
        'a distance along the air handler',
        'no distance',
        'Remove "at"; it counts along a duct.',
      );
    if (record.role === 'run' && !isLoose(record.terminal) && !joined.has(textAt(record, 'id')))
      complain(
        at,
        'a run that leads nowhere',
        'a terminal, or another part that joins it',
        'Add its register or grille as "terminal".',
      );
    if (record.role === 'bypass' ? record.endsOn === undefined : record.endsOn !== undefined)
      complain(
        `${at}/endsOn`,
        record.role === 'bypass' ? 'nothing' : `"${String(record.endsOn)}"`,
        record.role === 'bypass' ? 'the return part on which the bypass ends' : 'endsOn for a bypass only',
        record.role === 'bypass' ? 'Add "endsOn".' : 'Remove it, or make the part a bypass.',
      );
    const end = byId.get(textAt(record, 'endsOn') ?? '');
    if (end && end.side !== 'return')
      complain(
        `${at}/endsOn`,
        `"${String(record.endsOn)}", which is on the supply side`,
        'a return part',
        'A bypass leads from supply to return.',
      );
  }
};

const checkLeaks = (complain: Complain, holder: Loose, path: string): void => {
  for (const { path: at, record } of placed(holder, path, 'leaks'))
    if ((record.flow === undefined) === (record.tightness === undefined))
      complain(
        at,
        record.flow === undefined ? 'neither flow nor tightness' : 'both flow and tightness',
        'one of the two',
        'Give the flow at 25 Pa when it is known, else a word.',
      );
};

const checkPart = (complain: Complain, part: Loose, at: string): void => {
  checkLeaks(complain, part, at);
  const material = named(
    materials,
    textAt(part, 'material') ?? (part.role === 'run' ? 'flex' : 'galvanized'),
  );
  if (material && !material.flexible && part.slack !== undefined && siAt(part, 'slack', 'ratio') !== 0)
    complain(
      `${at}/slack`,
      `slack in ${material.name}`,
      'slack in flexible duct only',
      'Remove it, or correct the material.',
    );
  if (isLoose(part.terminal) && part.terminal.face === undefined && part.terminal.freeArea === undefined)
    complain(
      `${at}/terminal`,
      'neither face nor freeArea',
      'at least one of the two',
      'Add "face", as "10 in x 4 in".',
    );
};

const checkFan = (complain: Complain, fan: Loose, path: string): void => {
  for (const table of ['heatingTable', 'coolingTable']) {
    const rows = Array.isArray(fan[table]) ? fan[table] : [];
    const points = rows
      .map((text) => (typeof text === 'string' ? parseFanPoint(text) : { problem: '' }))
      .flatMap((point) => ('problem' in point ? [] : [point]))
      .sort(([a], [b]) => a - b);
    const rising = points.findIndex(
      ([flow, rise], i) => i > 0 && (flow <= points[i - 1]![0] || rise > points[i - 1]![1]),
    );
    if (rising > 0)
      complain(
        `${path}/${table}`,
        `a pressure that does not fall at ${formatQuantity(points[rising]![0], 'airflow', 'ip')} (${formatQuantity(points[rising]![0], 'airflow', 'si')})`,
        'each larger airflow at a lower pressure',
        'Check the table for a slip.',
      );
  }
  if (fan.holds !== undefined && fan.motor !== 'constant flow')
    complain(
      `${path}/holds`,
      'an airflow to hold',
      'one for a constant flow motor only',
      'Remove it, or set the motor.',
    );
};

const needs: Readonly<Record<string, readonly string[]>> = {
  'furnace with air conditioner': ['heating', 'cooling'],
  furnace: ['heating'],
  'heat pump': ['heating', 'cooling'],
  'air conditioner': ['cooling'],
};

const checkEquipment = (complain: Complain, equipment: Loose, path: string): void => {
  const needed = needs[textAt(equipment, 'kind') ?? ''];
  if (!needed) return;
  for (const part of ['heating', 'cooling']) {
    if (needed.includes(part) && equipment[part] === undefined)
      complain(`${path}/${part}`, 'nothing', `the ${part} of a ${String(equipment.kind)}`, `Add "${part}".`);
    if (!needed.includes(part) && equipment[part] !== undefined)
      complain(
        `${path}/${part}`,
        `${part}`,
        `none for a ${String(equipment.kind)}`,
        'Remove it, or correct the kind.',
      );
  }
};

/** What keeps the ducts of a system from being two trees that meet at the air handler. */
export const ductErrors = (job: Loose): readonly JobError[] =>
  collect((complain) => {
    for (const { path, record } of placed(job, '', 'systems')) {
      checkEquipment(complain, recordAt(record, 'equipment'), `${path}/equipment`);
      const handler = recordAt(record, 'airHandler');
      checkFan(complain, recordAt(handler, 'fan'), `${path}/airHandler/fan`);
      checkLeaks(complain, handler, `${path}/airHandler`);
      checkTree(complain, record, path);
      for (const { path: at, record: part } of placed(record, path, 'parts')) checkPart(complain, part, at);
      const sides = recordsAt(record, 'leakage').map((leakage) => leakage.side);
      if (new Set(sides).size < sides.length)
        complain(
          `${path}/leakage`,
          'two entries for one side',
          'one for each side',
          'Add them up, or remove one.',
        );
    }
  });
