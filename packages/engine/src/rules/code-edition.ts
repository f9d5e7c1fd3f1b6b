import iecc2009 from '../../data/rules/iecc-2009.json' with { type: 'json' };
import iecc2012 from '../../data/rules/iecc-2012.json' with { type: 'json' };
import iecc2015 from '../../data/rules/iecc-2015.json' with { type: 'json' };
import iecc2018 from '../../data/rules/iecc-2018.json' with { type: 'json' };
import iecc2021 from '../../data/rules/iecc-2021.json' with { type: 'json' };
import iecc2024 from '../../data/rules/iecc-2024.json' with { type: 'json' };
import type { LeakageTest } from '../survey/types.ts';
import { toSi } from '../units/dimension.ts';
import { allowedOnFloor, type LeakagePerFloorArea } from './leakage-measure.ts';

type Cited = { readonly clause: string; readonly source: string };

/** Stages that a code knows; a test "as found" is held against the one after construction. */
export type CodeStage = Exclude<LeakageTest['stage'], 'as found'>;
/** Where a duct lies. */
export type Envelope = 'inside envelope' | 'outside envelope';

/** Limit on leakage for one stage of test. */
export type LeakageRow = Cited & {
  readonly stage: CodeStage;
  readonly place: LeakageTest['place'];
  readonly where: Envelope;
  readonly limit: LeakagePerFloorArea;
  /** Leakage that a small house may have whatever its floor area, m³/s at 25 Pa. */
  readonly notBelow_m3s?: number;
  /** Number of return inlets that the row is for. */
  readonly returns?: { readonly below?: number; readonly atLeast?: number };
};

/** Least insulation for one place and size of duct. */
export type InsulationRow = Cited & {
  readonly where: 'attic' | 'other';
  readonly side: 'supply' | 'return' | 'any';
  readonly resistance_m2KW: number;
  /** Ducts below this size may have less. */
  readonly small?: { readonly below_m: number; readonly resistance_m2KW: number };
  /** What other sources print for the same clause. */
  readonly alternatives: readonly { readonly resistance_m2KW: number; readonly source: string }[];
};

/** Whether a building cavity may serve as duct. */
export type CavityRow = Cited & { readonly side: 'supply' | 'return' | 'any'; readonly allowed: boolean };

/** When a duct under insulation counts as what. */
export type BuriedRule = Cited & {
  readonly text: string;
  readonly ductResistance_m2KW: number;
  readonly coverResistance_m2KW: number;
  readonly humidDuctResistance_m2KW: number;
  readonly humidZones: readonly string[];
  readonly deeplyBuriedCountsAs_m2KW: number;
};

/** The clauses of one edition that concern ducts. */
export type CodeEdition = {
  readonly edition: string;
  readonly leakage: readonly LeakageRow[];
  readonly insideEnvelope: Cited & { readonly leakageTest: 'exempt' | 'limit' };
  readonly insulation: readonly InsulationRow[];
  readonly insulationExempt: Cited;
  readonly cavities: readonly CavityRow[];
  readonly buried?: BuriedRule;
};

/** An edition as its data file writes it: cfm per 100 ft², cfm, R in ft²·°F·h/Btu, inches. */
type EditionFile = Omit<CodeEdition, 'leakage' | 'insulation' | 'buried'> & {
  readonly leakage: readonly (Omit<LeakageRow, 'limit' | 'notBelow_m3s'> & {
    readonly limit: number;
    readonly notBelow?: number;
  })[];
  readonly insulation: readonly (Omit<InsulationRow, 'resistance_m2KW' | 'small' | 'alternatives'> & {
    readonly resistance: number;
    readonly small?: { readonly below: number; readonly resistance: number };
    readonly alternatives?: readonly { readonly resistance: number; readonly source: string }[];
  })[];
  readonly buried?: Cited & {
    readonly text: string;
    readonly ductResistance: number;
    readonly coverResistance: number;
    readonly humidDuctResistance: number;
    readonly humidZones: readonly string[];
    readonly deeplyBuriedCountsAs: number;
  };
};

const resistance = (value: number) => toSi('resistance', value, 'R');

function load(file: EditionFile): CodeEdition {
  const { edition, insideEnvelope, insulationExempt, cavities, buried } = file;
  return {
    edition,
    insideEnvelope,
    insulationExempt,
    cavities,
    leakage: file.leakage.map(({ limit, notBelow, ...row }) => ({
      ...row,
      limit: {
        per: 'conditioned floor area',
        flow25_m3sm2: toSi('airflowPerArea', limit, 'cfm/100 ft²'),
      },
      ...(notBelow !== undefined && { notBelow_m3s: toSi('airflow', notBelow, 'cfm') }),
    })),
    insulation: file.insulation.map(({ resistance: value, small, alternatives = [], ...row }) => ({
      ...row,
      resistance_m2KW: resistance(value),
      ...(small && {
        small: { below_m: toSi('length', small.below, 'in'), resistance_m2KW: resistance(small.resistance) },
      }),
      alternatives: alternatives.map((other) => ({
        resistance_m2KW: resistance(other.resistance),
        source: other.source,
      })),
    })),
    ...(buried && {
      buried: {
        text: buried.text,
        clause: buried.clause,
        source: buried.source,
        humidZones: buried.humidZones,
        ductResistance_m2KW: resistance(buried.ductResistance),
        coverResistance_m2KW: resistance(buried.coverResistance),
        humidDuctResistance_m2KW: resistance(buried.humidDuctResistance),
        deeplyBuriedCountsAs_m2KW: resistance(buried.deeplyBuriedCountsAs),
      },
    }),
  };
}

// The compiler reads words in JSON as any string; a test holds every file against the words allowed here.
const files = [
  iecc2009,
  iecc2012,
  iecc2015,
  iecc2018,
  iecc2021,
  iecc2024,
] as readonly unknown[] as readonly EditionFile[];

/** The duct rules of every edition on file, oldest first, in SI. */
export const codeEditions: readonly CodeEdition[] = files.map(load);

/** The edition of that name ('IECC 2018'), or undefined when it is not on file. */
export const codeEdition = (name: string): CodeEdition | undefined =>
  codeEditions.find(({ edition }) => edition === name);

/** Leakage at 25 Pa (m³/s) that a row allows a system that serves the given floor area (m²). */
export const allowedLeakage = (row: LeakageRow, floorArea_m2: number): number =>
  Math.max(allowedOnFloor(row.limit, floorArea_m2), row.notBelow_m3s ?? 0);

/** Rows for a stage and a place of the ducts, for a number of return inlets. */
export const leakageRows = (
  edition: CodeEdition,
  stage: CodeStage,
  where: Envelope,
  returnInlets: number,
): readonly LeakageRow[] => {
  const rows = edition.leakage.filter((row) => row.stage === stage);
  const here = rows.filter((row) => row.where === where);
  return (here.length > 0 ? here : rows).filter(
    ({ returns }) =>
      returnInlets >= (returns?.atLeast ?? 0) && returnInlets < (returns?.below ?? Number.POSITIVE_INFINITY),
  );
};
