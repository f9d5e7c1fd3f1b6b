import type { Range } from '@airledger/engine/calibrate/calibration';

const wide = 120;

/**
 * A range on a scale that a table shares, from `least` (0 when not given) to `most`; where it goes below zero, zero is
 * marked. What it was before stands faintly behind it.
 */
export const RangeBar = ({
  range,
  before,
  most,
  least = 0,
}: {
  range: Range;
  before?: Range;
  most: number;
  least?: number;
}) => {
  const at = (value: number) => Math.min(1, Math.max(0, (value - least) / (most - least))) * (wide - 4) + 2;
  return (
    <svg className="range-bar" width={wide} height="16" viewBox={`0 0 ${wide} 16`} aria-hidden="true">
      <line className="range-scale" x1="2" x2={wide - 2} y1="8" y2="8" />
      {least < 0 && <line className="range-zero" x1={at(0)} x2={at(0)} y1="2" y2="14" />}
      {before && <line className="range-before" x1={at(before.low)} x2={at(before.high)} y1="8" y2="8" />}
      <line className="range-now" x1={at(range.low)} x2={at(range.high)} y1="8" y2="8" />
      <circle className="range-middle" cx={at(range.middle)} cy="8" r="4" />
    </svg>
  );
};
