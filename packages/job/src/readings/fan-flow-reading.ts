import type { Survey } from '@airledger/engine';
import { designAir } from '@airledger/engine/loads/air-states';
import { flowAtRunningPressure, matchError } from '@airledger/engine/readings/flow-at-running-pressure';
import { clockedHeat_W, flowByTemperatureRise } from '@airledger/engine/readings/flow-by-temperature-rise';
import type { Reading } from '@airledger/engine/readings/types';
import errorRows from '../../data/temperature-rise-errors.json' with { type: 'json' };
import { parseClocked } from '../compound.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { accuracyOf } from './accuracy-of.ts';
import { isByRise } from './reading-tables.ts';
import { readingValue, type TypedValue, typedValue } from './reading-values.ts';

type FanFlow = Required<Pick<Reading, 'value' | 'accuracy'>> & Pick<Reading, 'workedOut'>;

type Source =
  | 'heat as stated'
  | 'gas by the clock'
  | 'heating value'
  | 'efficiency'
  | 'supply air'
  | 'return air';

/** Standard deviation of what goes into a temperature rise where no range is typed with it: a share, or K. */
const usualError = (of: Source): number => {
  const row = errorRows.find((one) => one.of === of)!;
  return row.share ?? row.kelvin!;
};

/** Relative error of a typed quantity: of its range, else the usual one. */
const shareOf = ({ value, deviation }: TypedValue, of: Source): number =>
  deviation === undefined ? usualError(of) : deviation / value;

/** Heat that a sheet says the air takes up, W, with its relative error; undefined while it says none. */
export const riseHeat = ({
  rise = {},
}: JobReading): { readonly heat_W: number; readonly error: number } | undefined => {
  const fan = typedValue(rise.fanPower, 'electricPower')?.value ?? 0;
  const output = typedValue(rise.output, 'power');
  if (output) return { heat_W: output.value + fan, error: shareOf(output, 'heat as stated') };
  const [heatingValue, efficiency] = [
    typedValue(rise.heatingValue, 'heatingValue'),
    typedValue(rise.efficiency, 'ratio'),
  ];
  if (rise.gas === undefined || !heatingValue || !efficiency) return undefined;
  const clocked = parseClocked(rise.gas);
  if ('problem' in clocked) throw new Error(`"${rise.gas}" ${clocked.problem}; check the job first.`);
  const [volume_m3, time_s] = clocked;
  return {
    heat_W: clockedHeat_W(volume_m3, time_s, heatingValue.value, efficiency.value) + fan,
    error: Math.hypot(
      usualError('gas by the clock'),
      shareOf(heatingValue, 'heating value'),
      shareOf(efficiency, 'efficiency'),
    ),
  };
};

/** Temperature rise of a sheet, K, with its standard deviation; undefined while one end is missing. */
export const riseOf = ({
  rise = {},
}: JobReading): { readonly rise_K: number; readonly deviation_K: number } | undefined => {
  const supply = typedValue(rise.supply, 'temperature');
  const back = typedValue(rise.return, 'temperature');
  return (
    supply &&
    back && {
      rise_K: supply.value - back.value,
      deviation_K: Math.hypot(
        supply.deviation ?? usualError('supply air'),
        back.deviation ?? usualError('return air'),
      ),
    }
  );
};

/** The two plenum pressures of a sheet, Pa, with the error that ranges typed with them add to the flow. */
export const plenumOf = ({
  plenum = {},
}: JobReading):
  | { readonly running_Pa: number; readonly read_Pa: number; readonly error: number }
  | undefined => {
  const running = typedValue(plenum.running, 'pressure');
  const read = typedValue(plenum.read, 'pressure');
  const share = ({ value, deviation = 0 }: TypedValue) => deviation / value / 2;
  return (
    running &&
    read && {
      running_Pa: running.value,
      read_Pa: read.value,
      error: Math.hypot(share(running), share(read), matchError(running.value, read.value)),
    }
  );
};

/**
 * Fan flow of a sheet that is filled in and possible, m³/s at the survey's air density, with one standard deviation:
 * worked out from a temperature rise, or as shown, brought to the plenum pressure in use where that was read.
 * @param actual brings a flow of the instrument to the survey's air density
 */
export const fanFlowReading = (
  reading: JobReading,
  survey: Survey,
  density_kgm3: number,
  actual: (shown_m3s: number) => number,
): FanFlow => {
  if (isByRise(reading)) return byRise(reading, survey, density_kgm3);
  const { value } = readingValue(reading, 'flow')!;
  const shown = { value: actual(value), accuracy: actual(accuracyOf(reading, value)) };
  const plenum = plenumOf(reading);
  if (!plenum) return shown;
  const factor = flowAtRunningPressure(1, plenum.running_Pa, plenum.read_Pa);
  return {
    value: factor * shown.value,
    accuracy: factor * Math.hypot(shown.accuracy, plenum.error * shown.value),
    workedOut: { by: 'plenum pressure', read_m3s: shown.value, factor },
  };
};

const byRise = (reading: JobReading, survey: Survey, density_kgm3: number): FanFlow => {
  const { heat_W, error } = riseHeat(reading)!;
  const { rise_K, deviation_K } = riseOf(reading)!;
  const { humidityRatio } = designAir(survey, 'heating').indoor;
  const value = flowByTemperatureRise(heat_W, rise_K, humidityRatio, density_kgm3);
  const share = typedValue(reading.accuracy, 'ratio')?.value ?? Math.hypot(error, deviation_K / rise_K);
  return {
    value,
    accuracy: share * value,
    workedOut: { by: 'temperature rise', heat_W, rise_K },
  };
};
