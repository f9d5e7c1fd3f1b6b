import { expect, type Page } from '@playwright/test';
import { demo, doors, ducts, textOf } from './demo-house.ts';
import { openTable, pasteInto } from './grid.ts';
import { showArea } from './open-house.ts';

type Cells = readonly (readonly string[])[];
const tsv = (rows: Cells) => rows.map((row) => row.join('\t')).join('\n');

/** Rows with their heads, as a spreadsheet gives them. */
const pasteRows = async (page: Page, table: string, rows: Cells) => {
  await openTable(page, table);
  await pasteInto(page, tsv(rows));
  await expect(page.locator('.grid [aria-invalid="true"]')).toHaveCount(0);
};

/** A block of cells from one cell on. */
export const pasteAt = async (
  page: Page,
  table: string,
  [row, column]: readonly [number, number],
  rows: Cells,
) => {
  await openTable(page, table);
  await page
    .locator(`.grid tbody tr:nth-child(${row + 1})`)
    .getByRole('gridcell')
    .nth(column)
    .click();
  await pasteInto(page, tsv(rows));
  await expect(page.locator('.grid [aria-invalid="true"]')).toHaveCount(0);
};

/** Types a field of a form, or picks its word. */
const put = async (page: Page, path: string, text: string) => {
  const field = page.locator(`[data-field="${path}"]`);
  const input = field.locator('textarea, input[type="text"], input:not([type]), select').first();
  const kind = await input.evaluate((element) => element.tagName);
  if (kind === 'SELECT') await input.selectOption(text);
  else {
    await input.fill(text);
    await input.press(kind === 'TEXTAREA' ? 'Control+Enter' : 'Enter');
  }
  await expect(field.getByRole('alert')).toHaveCount(0);
};

const details = async (page: Page, record: string) => {
  await page.getByRole('radio', { name: 'Details' }).check();
  await page.getByLabel('Show the details of').selectOption(record);
};

/** What is known of the house as a whole. */
export const noteHouse = async (page: Page) => {
  await showArea(page, 'Survey');
  for (const [path, text] of [
    ['house/storeys', '1'],
    ['house/bedrooms', '3'],
    ['house/yearBuilt', '1984'],
    ['house/ceilingHeight', '8 ft'],
    ['house/leakage50', '1,480 cfm'],
    ['indoor/heating', '70 °F'],
    ['indoor/cooling', '75 °F'],
    ['indoor/coolingHumidity', '50 %'],
  ] as const)
    await put(page, path, text);
};

type Surface = { id: string; kind: string; facing?: string; beyond?: string; in?: string; size?: string };
type Drawn = {
  rooms: { id: string; name: string; surfaces: Surface[] }[];
  zones: { surfaces?: Surface[] }[];
  systems: { parts: { id: string; side: string; role: string }[] }[];
};

/** What the notebook says of a drawn surface: assembly, U, sun, overhang, carpet. */
const notesOn = (room: string, surface: Surface, all: readonly Surface[]): readonly string[] => {
  const noted = demo.rooms.find(({ name }) => name === room)!.surfaces;
  const wallOf = (each: Surface) => all.find(({ id }) => id === each.in)?.facing;
  const twin =
    noted.find(
      (each) =>
        each.kind === surface.kind &&
        (surface.in === undefined
          ? each.facing === surface.facing
          : noted.find(({ id }) => id === each.in)?.facing === wallOf(surface)),
    ) ?? {};
  const said = twin as Record<string, string>;
  return [
    textOf(said.assembly),
    textOf(said.u),
    '',
    textOf(said.overhangDepth),
    textOf(said.overhangAbove),
    textOf(said.cover),
  ];
};

/** Everything that no drawing shows, typed and pasted from the notebook. */
export const noteRest = async (page: Page, drawn: Drawn) => {
  await showArea(page, 'Survey');
  await page.getByRole('radio', { name: 'House', exact: true }).check();
  // Refused as long as the rooms do not come to it.
  await put(page, 'house/floorArea', '1,540 ft²');
  const nameOf = (id: string) => demo.rooms.find((room) => room.id === id)!.name;
  await pasteRows(page, 'Rooms', [
    ['Name', 'Airflow, cooling', 'Airflow, heating'],
    ['Hall', '35 cfm', '35 cfm'],
    ['Bath', '30 cfm', '30 cfm'],
  ]);
  await pasteRows(page, 'Zones', [
    ['Name', 'Vented', 'Volume'],
    ['attic', 'yes', '5,400 ft³'],
  ]);
  const surfaces = drawn.rooms.flatMap(({ name, surfaces }) =>
    surfaces.map((surface) => ({ name, surface, surfaces })),
  );
  // The first cell is what the row belongs to, the next are its columns.
  await pasteAt(
    page,
    'Surfaces',
    [0, 1 + 7],
    surfaces.map(({ name, surface, surfaces: all }) => notesOn(name, surface, all)),
  );
  const backDoor = surfaces.findIndex(({ name, surface }) => name === 'Laundry' && surface.kind === 'door');
  await pasteAt(page, 'Surfaces', [backDoor, 1 + 3], [['2 ft 8 in x 6 ft 8 in']]);
  await pasteRows(page, 'Surfaces', [
    ['Room or zone', 'Kind', 'Area', 'Assembly', 'U'],
    ['attic', 'roof', '1,670 ft²', 'roof deck, uninsulated', ''],
    ['attic', 'wall', '160 ft²', '', 'U-0.40'],
  ]);
  await pasteAt(
    page,
    'Doors',
    [0, 4],
    doors.map(({ cells }) => cells),
  );
  // Parts were drawn in the order of the notebook.
  const ids = drawn.systems[0]!.parts.map(({ id }) => id);
  await pasteRows(page, 'Ducts', [
    ['Name', 'Role', 'Section', 'Material', 'Slack', 'Insulation', 'Fittings', 'Register face'],
    ...ducts.map(({ part }, i) => [
      ids[i]!,
      part.role,
      textOf(part.section as string),
      textOf(part.material as string),
      textOf(part.slack as string),
      textOf(part.insulation as string),
      ((part.fittings ?? []) as string[]).join('; '),
      textOf((part.terminal as { face?: string } | undefined)?.face),
    ]),
  ]);
  await pasteRows(page, 'Leaks', [
    ['Duct', 'Place', 'Flow at 25 Pa'],
    ...ducts.flatMap(({ part }, i) =>
      (part.leaks ?? []).map(({ place, flow }) => [ids[i]!, place, textOf(flow)]),
    ),
  ]);
  await pasteRows(page, 'Tests', [
    ['System', 'Stage', 'Leakage to', 'Side', 'Flow at 25 Pa', 'Known'],
    ['main', 'as found', 'total', '', '250 cfm ± 8', 'measured'],
    ['main', 'as found', 'total', 'supply', '219 cfm ± 8', 'measured'],
    ['main', 'as found', 'total', 'return', '31 cfm ± 2', 'measured'],
  ]);
  await pasteRows(page, 'Fans', [
    ['Kind', 'Room', 'Flow', 'Runs in the design hour'],
    ['exhaust', 'Bath', '50 cfm', 'no'],
  ]);

  await showArea(page, 'Air');
  await details(page, 'systems/main');
  for (const [field, text] of [
    ['thermostatRoom', nameOf('hall')],
    ['airflow/heating', '1,200 cfm'],
    ['airflow/cooling', '1,200 cfm'],
    ['equipment/kind', 'heat pump'],
    ['equipment/heating/output', '34,000 Btu/h'],
    ['equipment/heating/supplementary', '7.5 kW'],
    ['equipment/cooling/total', '3 tons'],
    ['equipment/cooling/sensibleHeatRatio', '77 %'],
    ['equipment/cooling/ratedAirflow', '1,200 cfm'],
  ] as const)
    await put(page, `systems/main/${field}`, text);
  await details(page, 'systems/main/airHandler');
  const table = demo.systems[0]!.airHandler.fan.coolingTable.join('\n');
  for (const [field, text] of [
    ['fan/motor', 'PSC'],
    ['fan/heatingTable', table],
    ['fan/coolingTable', table],
    ['fan/power', '0.52 W/cfm'],
    ['fan/ratedStatic', '0.50 in.wc'],
    ['filter/name', 'none'],
    ['coil/drop', '0.24 in.wc'],
    ['coil/at', '1,200 cfm'],
    ['coil/exponent', '1.8'],
  ] as const)
    await put(page, `systems/main/airHandler/${field}`, text);
  await page.locator('[data-field="systems/main/airHandler/fan/tableIncludes"]').getByLabel('coil').check();
  await page
    .getByRole('group', { name: 'Leaks of the cabinet', exact: true })
    .getByRole('button', { name: 'Add' })
    .click();
  await put(page, 'systems/main/airHandler/leaks/0/place', 'cabinet');
  await put(page, 'systems/main/airHandler/leaks/0/flow', '10 cfm ± 4');

  const returnRun = drawn.systems[0]!.parts.find(({ side, role }) => side === 'return' && role === 'run')!;
  const grille = `systems/main/parts/${returnRun.id}/terminal`;
  await details(page, grille);
  await put(page, `${grille}/filter/drop`, '0.34 in.wc (0.22 to 0.45 in.wc)');
  await put(page, `${grille}/filter/at`, '1150 cfm');
  for (const surface of ['roof', 'wall']) {
    const { id } = (await keptZone(page, surface))!;
    await details(page, `zones/attic/surfaces/${id}`);
    if (surface === 'roof') await put(page, `zones/attic/surfaces/${id}/absorptance`, '85 %');
    else await put(page, `zones/attic/surfaces/${id}/shaded`, 'true');
  }
  for (const { id } of drawn.rooms) {
    await details(page, `rooms/${id}`);
    await page
      .getByRole('group', { name: 'Its leaks open to', exact: true })
      .getByRole('button', { name: 'Add' })
      .click();
    await put(page, `rooms/${id}/leakageTo/0/share`, '25 %');
  }
};

/** The surface of the attic of a kind, from the list of records. */
const keptZone = async (page: Page, kind: string) => {
  const values = await page
    .getByLabel('Show the details of')
    .locator('option')
    .evaluateAll((options) => options.map((option) => (option as HTMLOptionElement).value));
  const path = values.find((value) => value.startsWith('zones/attic/surfaces/') && value.includes(kind));
  return path === undefined ? undefined : { id: path.split('/').at(-1)! };
};
