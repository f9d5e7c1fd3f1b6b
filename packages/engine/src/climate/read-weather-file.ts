/** An hourly year as typed in a TMY3 file. Row i covers the hour that ends at its stamp (hour-ending, standard time). */
export type WeatherYear = {
  readonly place: string;
  readonly timeZone_h: number;
  readonly latitude_deg: number;
  /** East positive. */
  readonly longitude_deg: number;
  readonly elevation_m: number;
  readonly month: Uint8Array;
  readonly day: Uint8Array;
  /** Hour in which the row lies, 0 (first of the day) to 23: its stamp less one. */
  readonly hour: Uint8Array;
  readonly dryBulb_C: Float64Array;
  readonly dewPoint_C: Float64Array;
  readonly pressure_Pa: Float64Array;
  readonly wind_ms: Float64Array;
  /** Mean irradiance over the hour, W/m²: on the horizontal, straight from the sun, and from the sky. */
  readonly global_Wm2: Float64Array;
  readonly direct_Wm2: Float64Array;
  readonly diffuse_Wm2: Float64Array;
};

/** One thing wrong with a weather file, told so that it can be mended. */
export class WeatherFileError extends Error {
  override readonly name = 'WeatherFileError';
}

/** What TMY3 writes where a value is missing. */
const missing = -9900;

const columns = {
  dryBulb_C: 'Dry-bulb (C)',
  dewPoint_C: 'Dew-point (C)',
  pressure_Pa: 'Pressure (mbar)',
  wind_ms: 'Wspd (m/s)',
  global_Wm2: 'GHI (W/m^2)',
  direct_Wm2: 'DNI (W/m^2)',
  diffuse_Wm2: 'DHI (W/m^2)',
} as const;
type Quantity = keyof typeof columns;

/** Cells of one CSV line; a cell in double quotes may hold commas. */
const cells = (line: string): string[] =>
  (line.match(/("[^"]*"|[^,]*)(,|$)/g) ?? []).map((cell) =>
    cell.replace(/,$/, '').replace(/^"|"$/g, '').trim(),
  );

const numberAt = (row: readonly string[], index: number, what: string, line: number): number => {
  const value = Number(row[index] === '' ? Number.NaN : row[index]);
  if (!Number.isFinite(value) || value === missing)
    throw new WeatherFileError(`Line ${line}: ${what} is “${row[index] ?? ''}”, a number is expected.`);
  return value;
};

/**
 * Reads a TMY3 file (CSV: one line for the station, one of column names, then one row an hour).
 * Columns are found by name, whatever their order.
 * @throws WeatherFileError naming the line, when a column, a number or a whole day is missing.
 */
export const readWeatherFile = (text: string): WeatherYear => {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  const station = cells(lines[0] ?? '');
  const header = cells(lines[1] ?? '');
  const indexOf = (name: string): number => {
    const exact = header.indexOf(name);
    // Some copies leave the unit out of the name.
    const found = exact >= 0 ? exact : header.indexOf(name.replace(/ \(W\/m\^2\)$/, ''));
    if (found < 0)
      throw new WeatherFileError(
        `Line 2: no column “${name}”; is this a TMY3 file with its two header lines?`,
      );
    return found;
  };
  const date = indexOf('Date (MM/DD/YYYY)');
  const time = indexOf('Time (HH:MM)');
  const rows = lines.slice(2);
  if (rows.length === 0 || rows.length % 24 !== 0)
    throw new WeatherFileError(
      `${rows.length} hourly rows; whole days of 24 are expected (8760 for a year).`,
    );
  const quantity = (name: Quantity) => ({
    index: indexOf(columns[name]),
    values: new Float64Array(rows.length),
  });
  const read: Record<Quantity, { readonly index: number; readonly values: Float64Array }> = {
    dryBulb_C: quantity('dryBulb_C'),
    dewPoint_C: quantity('dewPoint_C'),
    pressure_Pa: quantity('pressure_Pa'),
    wind_ms: quantity('wind_ms'),
    global_Wm2: quantity('global_Wm2'),
    direct_Wm2: quantity('direct_Wm2'),
    diffuse_Wm2: quantity('diffuse_Wm2'),
  };
  const month = new Uint8Array(rows.length);
  const day = new Uint8Array(rows.length);
  const hour = new Uint8Array(rows.length);
  rows.forEach((line, i) => {
    const row = cells(line);
    const stamp = /^(\d{1,2})\/(\d{1,2})\/\d{4} (\d{1,2}):\d{2}$/.exec(`${row[date]} ${row[time]}`);
    if (!stamp)
      throw new WeatherFileError(
        `Line ${i + 3}: “${row[date]} ${row[time]}” is not a date and an hour like 07/21/1995 15:00.`,
      );
    month[i] = Number(stamp[1]);
    day[i] = Number(stamp[2]);
    hour[i] = Number(stamp[3]) - 1;
    for (const { index, values } of Object.values(read))
      values[i] = numberAt(row, index, header[index]!, i + 3);
  });
  const at = (index: number, what: string): number => numberAt(station, index, what, 1);
  return {
    place: [station[1], station[2]].filter(Boolean).join(', '),
    timeZone_h: at(3, 'time zone'),
    latitude_deg: at(4, 'latitude'),
    longitude_deg: at(5, 'longitude'),
    elevation_m: at(6, 'elevation'),
    month,
    day,
    hour,
    dryBulb_C: read.dryBulb_C.values,
    dewPoint_C: read.dewPoint_C.values,
    pressure_Pa: read.pressure_Pa.values.map((mbar) => mbar * 100),
    wind_ms: read.wind_ms.values,
    global_Wm2: read.global_Wm2.values,
    direct_Wm2: read.direct_Wm2.values,
    diffuse_Wm2: read.diffuse_Wm2.values,
  };
};
