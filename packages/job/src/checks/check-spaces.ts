import { formatQuantity, type PlanPoint } from '@airledger/engine';
import { parsePoint, parseSize } from '../compound.ts';
import type { JobError } from '../job-error.ts';
import { areaInside } from '../survey/plan.ts';
import { type Complain, collect, placed } from './complaints.ts';
import { isLoose, type Loose, recordAt, recordsAt, siAt, textAt } from './loose.ts';

/** How far a typed area may be from the plan before one of them is taken for a slip. */
const tolerance = 0.1;

const area = (value: number): string =>
  `${formatQuantity(value, 'area', 'ip')} (${formatQuantity(value, 'area', 'si')})`;

const sizeArea = (record: Loose): number | undefined => {
  const size = textAt(record, 'size');
  const parsed = size === undefined ? undefined : parseSize(size);
  return parsed === undefined || 'problem' in parsed ? undefined : parsed[0] * parsed[1];
};

const corners = (space: Loose): readonly PlanPoint[] | undefined => {
  if (!Array.isArray(space.outline)) return undefined;
  const points = space.outline.map((text) => (typeof text === 'string' ? parsePoint(text) : { problem: '' }));
  return points.flatMap((point) => ('problem' in point ? [] : [point]));
};

const turn = (a: PlanPoint, b: PlanPoint, c: PlanPoint): number =>
  Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));

const crosses = (outline: readonly PlanPoint[]): boolean => {
  const n = outline.length;
  const side = (i: number) => [outline[i]!, outline[(i + 1) % n]!] as const;
  for (let i = 0; i < n; i++)
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b] = side(i);
      const [c, d] = side(j);
      if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) return true;
    }
  return false;
};

const planArea = (space: Loose): number | undefined => {
  const outline = corners(space);
  return outline ? areaInside(outline) : sizeArea(space);
};

const floorArea = (space: Loose): number | undefined => siAt(space, 'floorArea', 'area') ?? planArea(space);

const compare = (
  complain: Complain,
  path: string,
  typed: number | undefined,
  other: number | undefined,
  what: string,
): void => {
  if (typed === undefined || other === undefined) return;
  if (Math.abs(typed - other) > tolerance * Math.max(typed, other))
    complain(path, area(typed), `about ${area(other)}, which is ${what}`, 'Correct one of the two.');
};

const checkRoom = (complain: Complain, room: Loose, path: string): void => {
  if (room.outline === undefined && room.size === undefined && room.floorArea === undefined)
    complain(path, 'a room without a floor', 'outline, size or floorArea', 'Add one of them.');
  if (room.outline !== undefined && room.size !== undefined)
    complain(
      `${path}/size`,
      'both an outline and a size',
      'one of the two',
      'Remove the one that fits worse.',
    );
  const outline = corners(room);
  if (outline && crosses(outline))
    complain(
      `${path}/outline`,
      'an outline that crosses itself',
      'corners in order around the room',
      'Put the corners in order.',
    );
  compare(
    complain,
    `${path}/floorArea`,
    siAt(room, 'floorArea', 'area'),
    planArea(room),
    'what its plan gives',
  );
  const shares = recordsAt(room, 'leakageTo').reduce((sum, to) => sum + (siAt(to, 'share', 'ratio') ?? 0), 0);
  if (shares > 1 + 1e-9)
    complain(
      `${path}/leakageTo`,
      `shares that add to ${formatQuantity(shares, 'ratio', 'ip')}`,
      '100 % or less',
      'Lower them.',
    );
};

const needBeyond = new Set(['ceiling', 'floor', 'partition']);
const ofFloorSize = new Set(['ceiling', 'floor', 'slab', 'below-grade floor']);
const glazed = new Set(['window', 'skylight']);
const glassFields = ['solarHeatGain', 'interiorShade', 'insectScreen', 'overhangDepth', 'overhangAbove'];
const slabFields = ['edge', 'edgeLoss', 'cover'];

const grossArea = (surface: Loose): number | undefined => {
  const one = siAt(surface, 'area', 'area') ?? sizeArea(surface);
  return one === undefined ? undefined : one * (typeof surface.count === 'number' ? surface.count : 1);
};

const checkSurfaces = (complain: Complain, holder: Loose, path: string, isRoom: boolean): void => {
  const surfaces = placed(holder, path, 'surfaces');
  const held = new Map<string, number>();
  for (const { record } of surfaces) {
    const wall = textAt(record, 'in');
    if (wall !== undefined) held.set(wall, (held.get(wall) ?? 0) + (grossArea(record) ?? 0));
  }
  for (const { path: at, record } of surfaces) {
    const kind = textAt(record, 'kind') ?? '';
    const wall = surfaces.find((other) => other.record.id === record.in)?.record;
    if (needBeyond.has(kind) && record.beyond === undefined)
      complain(
        `${at}/beyond`,
        'nothing',
        `what lies beyond the ${kind}`,
        'Add "beyond": a zone, a room, outdoors or ground.',
      );
    if (record.beyond !== undefined && record.beyond === holder.id)
      complain(
        `${at}/beyond`,
        `"${String(record.beyond)}", which is its own space`,
        'another space',
        'Name what is on the other side.',
      );
    if (record.area === undefined && record.size === undefined && !(isRoom && ofFloorSize.has(kind)))
      complain(`${at}/area`, 'nothing', 'area or size', 'Add one of them.');
    compare(complain, `${at}/area`, siAt(record, 'area', 'area'), sizeArea(record), 'what its size gives');
    if (record.in !== undefined && !['window', 'skylight', 'door'].includes(kind))
      complain(`${at}/in`, `a ${kind} in another surface`, '"in" for windows and doors only', 'Remove it.');
    if (
      kind === 'window' &&
      (record.beyond ?? wall?.beyond ?? 'outdoors') === 'outdoors' &&
      record.facing === undefined &&
      wall?.facing === undefined
    )
      complain(
        `${at}/facing`,
        'nothing',
        'the direction that the window or its wall faces',
        'Add "facing", as "SW".',
      );
    if (kind === 'slab' && record.edge === undefined)
      complain(
        `${at}/edge`,
        'nothing',
        'the length of its exposed edge',
        'Add "edge"; "0 ft" when none is exposed.',
      );
    for (const [fields, fits] of [
      [glassFields, glazed.has(kind)],
      [slabFields, kind === 'slab'],
    ] as const)
      for (const field of fields)
        if (!fits && kind !== '' && record[field] !== undefined)
          complain(
            `${at}/${field}`,
            `"${field}" of a ${kind}`,
            `none for a ${kind}`,
            'Remove it, or correct the kind.',
          );
    const own = grossArea(record);
    const taken = held.get(textAt(record, 'id') ?? '') ?? 0;
    if (own !== undefined && taken > own + 1e-9)
      complain(
        `${at}/area`,
        area(own),
        `at least ${area(taken)}, which its windows and doors take`,
        'The area of a wall is its gross area; correct it or its windows.',
      );
  }
};

const mapped = new Set(['attic', 'crawlspace', 'basement']);

const checkZone = (complain: Complain, zone: Loose, path: string): void => {
  const kind = textAt(zone, 'kind') ?? '';
  if (
    kind !== '' &&
    !mapped.has(kind) &&
    zone.volume === undefined &&
    zone.floorArea === undefined &&
    zone.outline === undefined
  )
    complain(path, `a ${kind} of unknown size`, 'volume, floorArea or outline', 'Add one of them.');
  compare(
    complain,
    `${path}/floorArea`,
    siAt(zone, 'floorArea', 'area'),
    planArea(zone),
    'what its outline gives',
  );
};

const checkSite = (complain: Complain, job: Loose): void => {
  const site = recordAt(job, 'site');
  if (isLoose(job.site) && site.station === undefined)
    for (const field of [
      'heatingDesign',
      'coolingDesign',
      'coolingWetBulb',
      'dailyRange',
      'latitude',
      'elevation',
    ])
      if (site[field] === undefined)
        complain(
          `site/${field}`,
          'nothing',
          'a value, or a station that has it',
          `Add "${field}", or name a station.`,
        );
  const heating = siAt(site, 'heatingDesign', 'temperature');
  const cooling = siAt(site, 'coolingDesign', 'temperature');
  const wetBulb = siAt(site, 'coolingWetBulb', 'temperature');
  const text = (field: string): string =>
    JSON.stringify(isLoose(site[field]) ? site[field].value : site[field]);
  if (heating !== undefined && cooling !== undefined && heating >= cooling)
    complain(
      'site/heatingDesign',
      text('heatingDesign'),
      `less than coolingDesign, ${text('coolingDesign')}`,
      'Exchange or correct them.',
    );
  if (wetBulb !== undefined && cooling !== undefined && wetBulb > cooling)
    complain(
      'site/coolingWetBulb',
      text('coolingWetBulb'),
      `at most coolingDesign, ${text('coolingDesign')}`,
      'A wet bulb is never above its dry bulb.',
    );
};

const checkHouse = (complain: Complain, job: Loose): void => {
  const house = recordAt(job, 'house');
  const ways = ['leakage50', 'airChanges50', 'tightness'].filter((field) => house[field] !== undefined);
  if (ways.length > 1)
    complain(
      `house/${ways[1]}`,
      `both ${ways.join(' and ')}`,
      'one of them',
      'Keep the one that was measured.',
    );
  const rooms = recordsAt(job, 'rooms').map(floorArea);
  if (rooms.every((value) => value !== undefined))
    compare(
      complain,
      'house/floorArea',
      siAt(house, 'floorArea', 'area'),
      rooms.reduce<number>((sum, value) => sum + value, 0),
      'the sum of the rooms',
    );
  const shares = recordsAt(job, 'rooms').reduce(
    (sum, room) => sum + (siAt(room, 'leakageShare', 'ratio') ?? 0),
    0,
  );
  if (shares > 1 + 1e-9)
    complain(
      'rooms',
      `leakage shares that add to ${formatQuantity(shares, 'ratio', 'ip')}`,
      '100 % or less',
      'Lower them.',
    );
};

/** Sizes, areas and temperatures that contradict each other or are missing altogether. */
export const spaceErrors = (job: Loose): readonly JobError[] =>
  collect((complain) => {
    checkSite(complain, job);
    checkHouse(complain, job);
    for (const { path, record } of placed(job, '', 'rooms')) {
      checkRoom(complain, record, path);
      checkSurfaces(complain, record, path, true);
    }
    for (const { path, record } of placed(job, '', 'zones')) {
      checkZone(complain, record, path);
      checkSurfaces(complain, record, path, false);
    }
    for (const { path, record } of placed(job, '', 'transfers'))
      if (record.freeArea === undefined && record.face === undefined && record.diameter === undefined)
        complain(path, 'a transfer path of unknown size', 'face, diameter or freeArea', 'Add one of them.');
    for (const { path, record } of placed(job, '', 'ventilators'))
      if ((record.room === undefined) === (record.returnPart === undefined))
        complain(
          path,
          record.room === undefined ? 'neither room nor returnPart' : 'both room and returnPart',
          'one of the two',
          'Say where its air comes from or goes to.',
        );
  });
