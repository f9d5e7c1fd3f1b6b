import type { Doubt } from '../readings/doubt.ts';
import type { LeakageTest } from '../survey/types.ts';
import type { LeakageTestFit, TestPoint } from './fit-leakage-test.ts';
import type { JudgedLeakage } from './measured-leakage.ts';

/** A leakage test as its sheet has it, in SI. */
export type LeakageSheet = {
  readonly id: string;
  readonly system: string;
  readonly to: LeakageTest['place'];
  readonly side: LeakageTest['side'];
  readonly stage: LeakageTest['stage'];
  /** Pressures without sign; flows at `density_kgm3`. */
  readonly points: readonly TestPoint[];
  readonly instrumentError: number;
  readonly density_kgm3: number;
};

/** Flow that the leakage of a system is compared with. */
export type FanFlow = {
  readonly flow_m3s: number;
  readonly relativeError: number;
  readonly source: 'measured' | 'computed from the survey';
};

/** One test with what it comes to. */
export type LeakageTestResult = {
  readonly sheet: LeakageSheet;
  readonly fit: LeakageTestFit;
  /** m³/s per m² of conditioned floor. */
  readonly perFloorArea: number;
  readonly perFanFlow: number;
};

/** How a system stands against one limit. */
export type LeakageVerdict = {
  readonly id: string;
  readonly title: string;
  /** Leakage that the limit speaks of. */
  readonly to: LeakageTest['place'];
  readonly side: LeakageTest['side'];
  readonly per: 'conditioned floor area' | 'fan flow';
  /** Allowed flow at 25 Pa, m³/s, and the limit itself in its own measure. */
  readonly allowed_m3s: number;
  readonly limit: number;
  readonly clause: string;
  readonly source: string;
  /** Absent when no test tells. */
  readonly judged?: JudgedLeakage & {
    readonly flow25_m3s: number;
    /** Whether the figure itself, without its error, is within the limit: what a certificate goes by. */
    readonly figureWithin: boolean;
  };
  /** By what it was judged, or what would settle it. */
  readonly evidence: string;
};

/** Everything that its leakage tests say of one system. */
export type LeakageResults = {
  readonly system: string;
  readonly fan: FanFlow;
  readonly floorArea_m2: number;
  readonly tests: readonly LeakageTestResult[];
  readonly verdicts: readonly LeakageVerdict[];
  /** Tests that contradict each other, or follow no law of leaks. */
  readonly doubts: readonly Doubt[];
};
