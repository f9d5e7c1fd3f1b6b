import { leakDensityFactor, testPressure_Pa } from '@airledger/engine/ducts/leakage-law';
import { fitLeakageTest } from '@airledger/engine/leakage-test/fit-leakage-test';
import type { LeakageSheet } from '@airledger/engine/leakage-test/types';
import type { TestSetup } from '@airledger/engine/readings/types';
import { laterState } from '@airledger/engine/rules/tested-leakage';
import type { JobReading } from '../schema/reading-schema.ts';
import { accuracyOf } from './accuracy-of.ts';
import { typedPoints } from './reading-values.ts';

export type LeakageReading = {
  readonly value: number;
  readonly accuracy: number;
  readonly setup: TestSetup;
  readonly sheet?: LeakageSheet;
};

/**
 * A leakage test as one value: its points share the error of one instrument, so that ten of them are not ten
 * readings. Several points are read off their law, at 25 Pa where that was reached and at the highest pressure
 * otherwise. A flow against its sign, or none, follows no law: it stays as typed, to be doubted.
 * @param state in which it was read
 * @param actual brings a flow of the instrument to the survey's air density
 */
export const leakageReading = (
  reading: JobReading,
  state: string,
  setup: TestSetup,
  density_kgm3: number,
  actual: (shown_m3s: number) => number,
): LeakageReading => {
  const isDucts = reading.kind === 'duct leakage';
  const fans = isDucts && reading.to !== 'outdoors' ? 'ductPressure_Pa' : 'housePressure_Pa';
  const points = typedPoints(reading, setup[fans] ?? 0);
  const highest = points.reduce((a, b) => (Math.abs(b.pressure_Pa) > Math.abs(a.pressure_Pa) ? b : a));
  const heldAt = (pressure_Pa: number): TestSetup => ({ ...setup, [fans]: pressure_Pa });
  const asTyped = (): LeakageReading => ({
    value: actual(highest.flow_m3s),
    accuracy: actual(accuracyOf(reading, highest.flow_m3s)),
    setup: heldAt(highest.pressure_Pa),
  });
  if (points.some(({ flow_m3s, pressure_Pa }) => !(flow_m3s > 0) || pressure_Pa === 0)) return asTyped();
  const sizes = points.map(({ flow_m3s, pressure_Pa }) => ({
    flow_m3s: actual(flow_m3s),
    pressure_Pa: Math.abs(pressure_Pa),
  }));
  const instrumentError = accuracyOf(reading, highest.flow_m3s) / highest.flow_m3s;
  const sheet = isDucts
    ? leakageSheet(reading, state, setup, sizes, instrumentError, density_kgm3)
    : undefined;
  if (points.length === 1) return { ...asTyped(), ...(sheet && { sheet }) };
  const fit = fitLeakageTest(sizes, instrumentError, density_kgm3);
  const pressure_Pa = isDucts ? Math.min(fit.reached_Pa, testPressure_Pa) : fit.reached_Pa;
  const value =
    fit.flow25_m3s *
    leakDensityFactor(density_kgm3, fit.exponent) *
    (pressure_Pa / testPressure_Pa) ** fit.exponent;
  return {
    value,
    accuracy: value * fit.relativeError,
    setup: heldAt(Math.sign(highest.pressure_Pa) * pressure_Pa),
    ...(sheet && { sheet }),
  };
};

/** How far a house was built where the sheet does not say: after its repairs in the states that follow them. */
const usualStage = (state: string): LeakageSheet['stage'] =>
  laterState.test(state) ? 'after construction' : 'as found';

const leakageSheet = (
  reading: JobReading,
  state: string,
  setup: TestSetup,
  points: LeakageSheet['points'],
  instrumentError: number,
  density_kgm3: number,
): LeakageSheet => ({
  id: reading.id,
  system: reading.of!,
  to: reading.to as LeakageSheet['to'],
  side: setup.side,
  stage: reading.stage ?? usualStage(state),
  points,
  instrumentError,
  density_kgm3,
});
