import type { BufferZoneKind, Fitting, LeakPlace, SurfaceKind } from '@airledger/engine';
import { type Station, stations as stationRows } from '@airledger/engine/climate/stations';
import fittingRows from '../../../engine/data/fittings.json' with { type: 'json' };
import materialRows from '../../../engine/data/materials.json' with { type: 'json' };
import assemblyRows from '../../data/assemblies.json' with { type: 'json' };
import defaultRows from '../../data/defaults.json' with { type: 'json' };
import fanRows from '../../data/fans.json' with { type: 'json' };
import filterRows from '../../data/filters.json' with { type: 'json' };
import leakRows from '../../data/leaks.json' with { type: 'json' };
import tightnessRows from '../../data/tightness.json' with { type: 'json' };
import zoneRows from '../../data/zones.json' with { type: 'json' };

type Sourced = { readonly source: string };

type MaterialRow = Sourced & {
  readonly name: string;
  readonly roughness_m: number;
  readonly flexible: boolean;
};
type FittingRow = Sourced &
  Pick<Fitting, 'name' | 'kind' | 'lossCoefficient' | 'equivalentLength_m' | 'followsSplit'>;
export type AssemblyRow = Sourced & {
  readonly name: string;
  readonly kinds: readonly SurfaceKind[];
  readonly u: string;
  readonly solarHeatGain?: string;
  readonly edgeLoss?: string;
  readonly usualFor?: readonly SurfaceKind[];
};
type DefaultRow = Sourced & { readonly field: string; readonly value: string };
type FanRow = Sourced & { readonly motor: string; readonly points: readonly (readonly number[])[] };
type FilterRow = Sourced & {
  readonly name: string;
  readonly drop: string;
  readonly faceVelocity: string;
  readonly exponent: string;
};
type LeakRow = Sourced & {
  readonly place: LeakPlace;
  readonly tightness: string;
  readonly flow: string;
};
export type ZoneRow = Sourced & {
  readonly kind: BufferZoneKind;
  readonly vented: boolean;
  readonly airChangeHeating: string;
  readonly airChangeCooling: string;
  /** Area of its openings to outdoors, share of its floor area. */
  readonly ventShare: number;
  readonly height: string;
  readonly surfaces: readonly {
    readonly kind: SurfaceKind;
    readonly beyond: string;
    readonly areaPerFloor: number;
    readonly assembly: string;
  }[];
};

const lower = (text: string): string => text.trim().toLowerCase();
const byKey = <T>(rows: readonly T[], key: (row: T) => string): ReadonlyMap<string, T> =>
  new Map(rows.map((row) => [lower(key(row)), row]));

/** Tables of names that a job may use; names are found without regard to case. */
export const materials = byKey(materialRows as readonly MaterialRow[], (row) => row.name);
export const fittings = byKey(fittingRows as readonly FittingRow[], (row) => row.name);
export const stations = byKey<Station>(stationRows, (row) => row.id);
export const assemblies = byKey(assemblyRows as readonly AssemblyRow[], (row) => row.name);
export const filters = byKey(filterRows as readonly FilterRow[], (row) => row.name);

const fans = byKey(fanRows as readonly FanRow[], (row) => row.motor);
const leaks = byKey(leakRows as readonly LeakRow[], (row) => `${row.place}/${row.tightness}`);
const zones = byKey(zoneRows as readonly ZoneRow[], (row) => `${row.kind}/${row.vented}`);
const tightness = byKey(
  tightnessRows as readonly (Sourced & { word: string; leakagePerExposed: number })[],
  (row) => row.word,
);
const usual = new Map(
  [...assemblies.values()].flatMap((row) => (row.usualFor ?? []).map((kind) => [kind, row] as const)),
);
const defaults = byKey(defaultRows as readonly DefaultRow[], (row) => row.field);

const found = <T>(table: ReadonlyMap<string, T>, key: string): T => {
  const row = table.get(lower(key));
  if (row === undefined) throw new Error(`No row "${key}" in its table.`);
  return row;
};

export const named = <T>(table: ReadonlyMap<string, T>, name: string): T | undefined =>
  table.get(lower(name));
export const fanOf = (motor: string): FanRow => found(fans, motor);
export const leakOf = (place: string, word: string): LeakRow => found(leaks, `${place}/${word}`);
export const tightnessOf = (word: string) => found(tightness, word);
export const usualAssembly = (kind: SurfaceKind): AssemblyRow => found(usual, kind);
export const defaultOf = (field: string): DefaultRow => found(defaults, field);
/** Row of a zone kind; kinds that are never vented, or always, have one row. */
export const zoneOf = (kind: BufferZoneKind, vented: boolean): ZoneRow =>
  named(zones, `${kind}/${vented}`) ?? found(zones, `${kind}/${!vented}`);
