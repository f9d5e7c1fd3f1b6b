/**
 * Readings: what instruments showed in one house, in SI units, each with its own condition of the house.
 * A reading that was taken is never dropped: what is doubted about it is told beside it.
 */

/** How the house and its ducts stood while a reading was taken. */
export type TestSetup = {
  /** Fan of the system under test. */
  readonly fan: 'heating' | 'cooling' | 'off';
  readonly doors: 'as surveyed' | 'all open' | 'all shut';
  readonly registers: 'open' | 'sealed';
  /** Terminals left unmasked while the others are sealed, or covered (by a pan) while the others are open. */
  readonly except?: readonly string[];
  readonly filter: 'in' | 'out';
  /** Side under test when supply and return are cut apart at the cabinet. */
  readonly side: 'both' | 'supply' | 'return';
  /** Pressure that a tester holds in the ducts, to the house, Pa; absent when no tester is connected. */
  readonly ductPressure_Pa?: number;
  /** Pressure at which a blower door holds the house, to outdoors, Pa; absent when there is none. */
  readonly housePressure_Pa?: number;
};

/** Where a pressure or temperature was taken inside a system. */
export type SystemPlace = 'supply plenum' | 'before coil' | 'after filter' | 'return plenum';

/** What was read, and where. Ids are those of the survey. */
export type ReadingSubject =
  | { readonly kind: 'duct leakage'; readonly system: string; readonly to: 'total' | 'outdoors' }
  | { readonly kind: 'house leakage' }
  | { readonly kind: 'system static'; readonly system: string; readonly place: SystemPlace }
  /** Static inside a part: at its air-handler end (takeoff), or at its far end (boot, trunk end). */
  | { readonly kind: 'part static'; readonly part: string; readonly at: 'start' | 'end' }
  | { readonly kind: 'pressure pan'; readonly terminal: string }
  | { readonly kind: 'fan flow'; readonly system: string }
  | { readonly kind: 'terminal flow'; readonly terminal: string; readonly hood: 'powered' | 'passive' }
  | { readonly kind: 'room pressure'; readonly room: string; readonly to: 'outdoors' | string }
  | { readonly kind: 'terminal temperature'; readonly terminal: string }
  | {
      readonly kind: 'system temperature';
      readonly system: string;
      readonly place: 'supply plenum' | 'return plenum';
    }
  | { readonly kind: 'space temperature'; readonly space: string }
  | { readonly kind: 'fan power'; readonly system: string };

/** Whether an instrument showed the value, if at another pressure: a slip of the hand is then one of its unit or sign. */
export const isShown = ({ workedOut }: Reading): boolean => workedOut?.by !== 'temperature rise';

/** One reading, in the condition in which it was taken. */
export type Reading = {
  readonly id: string;
  readonly subject: ReadingSubject;
  readonly setup: TestSetup;
  /** m³/s, Pa, °C or W as the subject asks; flows at the survey's air density. Sign: pressures to the space or outdoors named. */
  readonly value: number;
  /** One standard deviation of the instrument and its use, same unit. */
  readonly accuracy: number;
  /** State of the house (job state id) that the reading belongs to. */
  readonly state: string;
  /** Place in the job, for messages (`readings/leakage-1`). */
  readonly path: string;
  readonly outdoor_C?: number;
  /** How the value came about where no instrument shows it. */
  readonly workedOut?:
    | { readonly by: 'temperature rise'; readonly heat_W: number; readonly rise_K: number }
    | { readonly by: 'plenum pressure'; readonly read_m3s: number; readonly factor: number };
};
