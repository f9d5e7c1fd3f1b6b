import type { DuctPart, Fitting, Leak, LeakPlace, PressureDrop, Terminal } from '@airledger/engine';
import { parseSection } from '../compound.ts';
import type { JobPart } from '../schema/job-schema.ts';
import type { JobFilter, JobLeak, JobTerminal } from '../schema/system-schema.ts';
import { pointOf, sizeOf, soundly } from './plan.ts';
import { type Surveyor, shareOfFace, tableValue, usually, usualValue } from './surveyor.ts';
import { filters, fittings, leakOf, materials, named } from './tables.ts';

const usualEnd: Readonly<Record<LeakPlace, Leak['at']>> = {
  takeoff: 'start',
  joint: 'along',
  seam: 'along',
  boot: 'end',
  plenum: 'start',
  cabinet: 'start',
};

/** Leaks of a part or cabinet, each with an id unique in the house. */
export const leaksFrom = (
  path: string,
  owner: string,
  zone: string,
  typed: readonly JobLeak[],
  survey: Surveyor,
): readonly Leak[] =>
  typed.map((leak, i) => {
    const id =
      leak.id ??
      (typed.some((other, j) => j < i && other.place === leak.place) ? `${leak.place}-${i + 1}` : leak.place);
    const at = `${path}/leaks/${leak.id ?? i}`;
    const row = leakOf(leak.place, leak.tightness ?? 'typical');
    return {
      id: `${owner}/${id}`,
      place: leak.place,
      at: leak.at ?? usualEnd[leak.place],
      zone: leak.zone ?? zone,
      flow25_m3s: survey.quantity(`${at}/flow`, leak.flow, 'airflow', {
        text: row.flow,
        source: `${row.tightness} ${row.place}: ${row.source}`,
      }),
      exponent: survey.quantity(`${at}/exponent`, leak.exponent, 'number', usually('leak.exponent')),
    };
  });

/** Fittings of a part; one given by name alone takes its loss from the table, on record with its source. */
const fittingsFrom = (path: string, part: JobPart, survey: Surveyor): readonly Fitting[] =>
  (part.fittings ?? []).map((typed, i) => {
    const fitting = typeof typed === 'string' ? { name: typed } : typed;
    const at = `${path}/fittings/${i}`;
    const row = named(fittings, fitting.name);
    const base = {
      id: `${part.id}/fitting-${i + 1}`,
      kind: fitting.kind ?? row?.kind ?? 'fitting',
      name: fitting.name,
      count: fitting.count ?? 1,
    };
    if (fitting.lossCoefficient !== undefined || fitting.equivalentLength !== undefined)
      return {
        ...base,
        lossCoefficient: survey.optional(`${at}/lossCoefficient`, fitting.lossCoefficient, 'number'),
        equivalentLength_m: survey.optional(`${at}/equivalentLength`, fitting.equivalentLength, 'length'),
      };
    survey.lookedUp(at, fitting.name, row!.source, row!.lossCoefficient ?? row!.equivalentLength_m);
    return {
      ...base,
      lossCoefficient: row!.lossCoefficient,
      equivalentLength_m: row!.equivalentLength_m,
      followsSplit: row!.followsSplit,
    };
  });

/** Pressure drop of a filter: as typed, or of the table's row at its face speed, or at the airflow of the system. */
export const filterDrop = (
  path: string,
  filter: JobFilter,
  airflow_m3s: number,
  face_m2: number | undefined,
  survey: Surveyor,
): PressureDrop => {
  const row = named(filters, filter.name ?? '1 in MERV 8')!;
  const table = (text: string) => ({ text, source: `${row.name}: ${row.source}` });
  const own = filter.face === undefined ? undefined : sizeOf(filter.face);
  const face = own ? own[0] * own[1] : face_m2;
  const byFace = face !== undefined && filter.drop === undefined;
  return {
    drop_Pa: survey.quantity(`${path}/drop`, filter.drop, 'pressure', table(row.drop)),
    flow_m3s: survey.quantity(`${path}/at`, filter.at, 'airflow', {
      value: byFace ? face * tableValue(row.faceVelocity, 'velocity') : airflow_m3s,
      source: byFace ? `its face at ${row.faceVelocity}` : 'design airflow',
    }),
    exponent: survey.quantity(`${path}/exponent`, filter.exponent, 'number', table(row.exponent)),
  };
};

const terminalFrom = (
  path: string,
  terminal: JobTerminal,
  side: 'supply' | 'return',
  airflow_m3s: number,
  survey: Surveyor,
): Terminal => {
  const kind = side === 'supply' ? 'register' : 'grille';
  const face = terminal.face === undefined ? undefined : sizeOf(terminal.face);
  const freeShare = `terminal.freeShare.${kind}`;
  const share = usualValue(freeShare, 'ratio');
  const freeArea_m2 = survey.quantity(`${path}/freeArea`, terminal.freeArea, 'opening', {
    value: face ? face[0] * face[1] * share : Number.NaN,
    source: shareOfFace(freeShare),
  });
  const faceArea_m2 = face ? face[0] * face[1] : freeArea_m2 / share;
  return {
    id: terminal.id,
    name: terminal.name ?? terminal.id.replaceAll('-', ' '),
    room: terminal.room,
    kind,
    faceArea_m2,
    freeArea_m2,
    lossCoefficient: survey.quantity(
      `${path}/lossCoefficient`,
      terminal.lossCoefficient,
      'number',
      usually(`terminal.lossCoefficient.${kind}`),
    ),
    open: survey.quantity(`${path}/open`, terminal.open, 'ratio', usually('terminal.open')),
    ...(terminal.filter && {
      filter: filterDrop(`${path}/filter`, terminal.filter, airflow_m3s, faceArea_m2, survey),
    }),
  };
};

/** One duct part; `airflow_m3s` is what its system moves, for filters without a rated airflow. */
export const partFrom = (
  systemPath: string,
  part: JobPart,
  airflow_m3s: number,
  survey: Surveyor,
): DuctPart => {
  const path = `${systemPath}/parts/${part.id}`;
  const materialName = survey.word(
    `${path}/material`,
    part.material,
    part.role === 'run' ? 'flex' : 'galvanized',
    'common practice, no source',
  );
  const material = named(materials, materialName)!;
  const isCavity = material.name === 'building cavity';
  const bare = isCavity ? 'building cavity' : material.flexible ? 'flex' : 'rigid';
  const insulation_m2KW = survey.quantity(
    `${path}/insulation`,
    part.insulation,
    'resistance',
    usually(`part.insulation.${bare}`),
  );
  const jacket = survey.word(
    `${path}/jacket`,
    part.jacket,
    insulation_m2KW > 0 || isCavity ? 'plastic' : 'bare metal',
    'follows from the insulation',
  );
  const joinsAt_m = survey.optional(`${path}/at`, part.at, 'length');
  const damper = survey.optional(`${path}/damper`, part.damper, 'ratio');
  return {
    id: part.id,
    name: part.name ?? part.id.replaceAll('-', ' '),
    side: part.side,
    role: part.role,
    joins: part.joins,
    ...(joinsAt_m !== undefined && { joinsAt_m }),
    ...(part.endsOn !== undefined && { endsOn: part.endsOn }),
    section: soundly(part.section, parseSection),
    length_m: survey.required(`${path}/length`, part.length, 'length'),
    material: material.name,
    roughness_m: survey.quantity(`${path}/roughness`, part.roughness, 'size', {
      value: material.roughness_m,
      source: `${material.name}: ${material.source}`,
    }),
    flexible: material.flexible,
    slack: material.flexible
      ? survey.quantity(`${path}/slack`, part.slack, 'ratio', usually('part.slack'))
      : 0,
    insulation_m2KW,
    jacketEmittance: usualValue(`part.emittance.${jacket}`, 'number'),
    zone: part.zone,
    buildingCavity: isCavity,
    fittings: fittingsFrom(path, part, survey),
    ...(damper !== undefined && { damper }),
    leaks: leaksFrom(path, part.id, part.zone, part.leaks ?? [], survey),
    ...(part.terminal && {
      terminal: terminalFrom(`${path}/terminal`, part.terminal, part.side, airflow_m3s, survey),
    }),
    path_m: (part.path ?? []).map(pointOf),
    storey: part.storey ?? 1,
  };
};
