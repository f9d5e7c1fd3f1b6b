import { type Doubt, doubt } from '@airledger/engine/readings/doubt';
import type { JobReading } from '../schema/reading-schema.ts';
import { typedText } from '../typed.ts';
import { plenumOf, riseHeat, riseOf } from './fan-flow-reading.ts';
import { isByRise } from './reading-tables.ts';
import { typedValue } from './reading-values.ts';

/** What a fan flow's sheet lacks beyond a flow as shown. */
export type Missing = { readonly what: string; readonly example: string };

/** What a temperature rise, or a flow read at another plenum pressure, lacks; undefined when nothing. */
export const missingInFanFlow = (reading: JobReading): Missing | undefined => {
  const { rise = {}, plenum = {} } = reading;
  if (!isByRise(reading)) {
    if ((plenum.running === undefined) === (plenum.read === undefined)) return undefined;
    return plenum.running === undefined
      ? { what: 'the plenum pressure in use', example: 'Type it like "0.31 in.wc".' }
      : { what: 'the plenum pressure while the flow was read', example: 'Type it like "0.28 in.wc".' };
  }
  if (rise.output === undefined) {
    if (rise.gas === undefined)
      return { what: 'the heat', example: 'Clock the gas, or type the output like "10.2 kW".' };
    if (rise.heatingValue === undefined)
      return {
        what: 'the heating value of the gas',
        example: 'The supplier states it, like "1030 Btu/ft³".',
      };
    if (rise.efficiency === undefined)
      return { what: 'the efficiency of the burner', example: 'Type it like "80 %".' };
  }
  if (rise.supply === undefined)
    return { what: 'the temperature of the supply air', example: 'Type it like "125 °F".' };
  if (rise.return === undefined)
    return { what: 'the temperature of the return air', example: 'Type it like "70 °F".' };
  return undefined;
};

/** How far a flow may be brought before it is asked about (common practice, no source). */
const farthest = 1.25;

const until = 'It is not used until then.';

/** What can not be, or is far, in a fan flow's sheet that is filled in; an impossible one gives no flow. */
export const fanFlowDoubt = (reading: JobReading, place: string): Doubt | undefined => {
  const impossible = (value: string, expected: string, remedy: string): Doubt =>
    doubt('impossible', [reading.id], place, value, expected, `${remedy} ${until}`);
  const { rise = {}, plenum: typed = {} } = reading;
  if (isByRise(reading)) {
    if ((typedValue(rise.efficiency, 'ratio')?.value ?? 1) > 1)
      return impossible(
        `an efficiency of ${typedText(rise.efficiency!)}`,
        'at most 100 %',
        'Go by the higher heating value, as meters and suppliers do.',
      );
    const heat = riseHeat(reading);
    if (heat && !(heat.heat_W > 0 && Number.isFinite(heat.heat_W)))
      return impossible(
        `heat of ${rise.gas ?? typedText(rise.output!)}`,
        'more than none',
        'Type it as it was clocked or read.',
      );
    const ends = riseOf(reading);
    if (ends && !(ends.rise_K > 0))
      return impossible(
        `supply air at ${typedText(rise.supply!)}, return air at ${typedText(rise.return!)}`,
        'supply air that is warmer',
        'Look whether the two are mixed up; only heating tells a flow.',
      );
    return undefined;
  }
  const plenum = plenumOf(reading);
  if (!plenum) return undefined;
  const value = `${typedText(typed.running!)} in use, ${typedText(typed.read!)} while it was read`;
  const ratio = plenum.running_Pa / plenum.read_Pa;
  if (!(ratio > 0 && Number.isFinite(ratio)))
    return impossible(
      value,
      'two pressures of one sign',
      'Look at the hoses, and at the place of the probe.',
    );
  const factor = Math.sqrt(ratio);
  return factor > farthest || factor < 1 / farthest
    ? doubt(
        'unlikely',
        [reading.id],
        place,
        value,
        'two that are nearly the same',
        `The flow is brought over by × ${factor.toFixed(2)}; bring the tester nearer to the pressure in use.`,
      )
    : undefined;
};
