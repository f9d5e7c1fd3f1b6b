import type { Glass, Surface, SurfaceKind } from '@airledger/engine';
import type { JobSurface } from '../schema/job-schema.ts';
import { sizeOf } from './plan.ts';
import { type Fallback, type Surveyor, usually } from './surveyor.ts';
import { type AssemblyRow, assemblies, named, usualAssembly } from './tables.ts';

const beyondOf: Readonly<Partial<Record<SurfaceKind, string>>> = {
  slab: 'ground',
  'below-grade wall': 'ground',
  'below-grade floor': 'ground',
};

/** Where a surface leads when the job does not say. */
const usualBeyond = (kind: SurfaceKind): string => beyondOf[kind] ?? 'outdoors';

const glazed = (kind: SurfaceKind): boolean => kind === 'window' || kind === 'skylight';

const fromRow = (row: AssemblyRow, text: string): Fallback => ({
  text,
  source: `${row.name}: ${row.source}`,
});

const glassOf = (
  path: string,
  surface: JobSurface,
  row: AssemblyRow,
  area_m2: number,
  survey: Surveyor,
): Glass => ({
  solarHeatGain: survey.quantity(
    `${path}/solarHeatGain`,
    surface.solarHeatGain,
    'ratio',
    fromRow(row, row.solarHeatGain ?? '0.6'),
  ),
  shadeFactor: survey.quantity(
    `${path}/interiorShade`,
    surface.interiorShade,
    'ratio',
    usually('surface.interiorShade'),
  ),
  // Full insect screen: ASHRAE Handbook—Fundamentals 2021 ch. 17.
  screen: surface.insectScreen ? 0.64 : 1,
  height_m: surface.size === undefined ? Math.sqrt(area_m2) : sizeOf(surface.size)[1],
  overhangDepth_m: survey.quantity(
    `${path}/overhangDepth`,
    surface.overhangDepth,
    'length',
    usually('surface.overhang'),
  ),
  overhangAbove_m: survey.quantity(
    `${path}/overhangAbove`,
    surface.overhangAbove,
    'length',
    usually('surface.overhang'),
  ),
});

/** Surfaces of one room or zone, windows and doors taken out of the walls that hold them. */
export const surfacesOf = (
  holder: { readonly path: string; readonly id: string; readonly floorArea_m2: number },
  typed: readonly JobSurface[],
  survey: Surveyor,
): readonly Surface[] => {
  const pathOf = (surface: JobSurface): string => `${holder.path}/surfaces/${surface.id}`;
  const areaOf = (surface: JobSurface): number => {
    const one =
      surface.size === undefined || surface.area !== undefined
        ? survey.quantity(`${pathOf(surface)}/area`, surface.area, 'area', {
            value: holder.floorArea_m2,
            source: 'floor area of its room',
          })
        : sizeOf(surface.size)[0] * sizeOf(surface.size)[1];
    return one * (surface.count ?? 1);
  };
  const areas = new Map(typed.map((surface) => [surface.id, areaOf(surface)]));
  const takenOut = new Map<string, number>();
  for (const surface of typed)
    if (surface.in !== undefined)
      takenOut.set(surface.in, (takenOut.get(surface.in) ?? 0) + areas.get(surface.id)!);

  return typed.map((surface): Surface => {
    const { kind } = surface;
    const path = pathOf(surface);
    const wall = typed.find((other) => other.id === surface.in);
    const area_m2 = areas.get(surface.id)! - (takenOut.get(surface.id) ?? 0);
    const row =
      (surface.assembly === undefined ? undefined : named(assemblies, surface.assembly)) ??
      usualAssembly(kind);
    const facing = surface.facing ?? wall?.facing;
    const beyond = surface.beyond ?? wall?.beyond ?? usualBeyond(kind);
    const sunlit = kind === 'roof' || kind === 'ceiling';
    return {
      id: `${holder.id}/${surface.id}`,
      name: surface.name ?? surface.id.replaceAll('-', ' '),
      kind,
      inside: holder.id,
      beyond,
      area_m2,
      u_Wm2K:
        kind === 'slab' ? 0 : survey.quantity(`${path}/u`, surface.u, 'transmittance', fromRow(row, row.u)),
      ...(facing !== undefined && { facing_deg: survey.required(`${path}/facing`, facing, 'angle') }),
      ...((sunlit || surface.absorptance !== undefined) && {
        sunAbsorptance: survey.quantity(
          `${path}/absorptance`,
          surface.absorptance,
          'ratio',
          usually('surface.absorptance'),
        ),
      }),
      ...(surface.shaded !== undefined && { shaded: surface.shaded }),
      ...(glazed(kind) && { glass: glassOf(path, surface, row, area_m2, survey) }),
      ...(kind === 'slab' && {
        slab: {
          edge_m: survey.quantity(`${path}/edge`, surface.edge, 'length', {
            text: '0 ft',
            source: 'no exposed edge stated',
          }),
          edgeLoss_WmK: survey.quantity(
            `${path}/edgeLoss`,
            surface.edgeLoss,
            'edgeLoss',
            fromRow(row, row.edgeLoss ?? '1.17 W/(m·K)'),
          ),
          coverResistance_m2KW: survey.quantity(
            `${path}/cover`,
            surface.cover,
            'resistance',
            usually('surface.cover'),
          ),
        },
      }),
    };
  });
};
