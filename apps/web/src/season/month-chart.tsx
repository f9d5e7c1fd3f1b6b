import type { SeasonMonth } from '@airledger/engine';
import { monthNames } from '@airledger/report/month-names';

const height = 150;
const step = 44;
const bar = 28;

/** What each month costs as bars: heat below, cooling above it, by their part of the input. The table beside it holds the figures. */
export const MonthChart = ({ months }: { months: readonly SeasonMonth[] }) => {
  const most = Math.max(...months.map(({ cost }) => cost), 1);
  const scale = (height - 24) / most;
  const dearest = months.reduce((best, month) => (month.cost > best.cost ? month : best));
  return (
    <svg
      className="month-chart"
      role="img"
      aria-label={`Cost by month: most in ${monthNames[dearest.month - 1]}, ${dearest.cost.toFixed(0)} $`}
      viewBox={`0 0 ${12 * step} ${height + 22}`}
    >
      {months.map((month, m) => {
        const heat_J = month.heating_J + month.supplementary_J;
        const input_J = heat_J + month.cooling_J;
        const whole = month.cost * scale;
        const heat = input_J > 0 ? (whole * heat_J) / input_J : 0;
        const x = m * step + (step - bar) / 2;
        return (
          <g key={month.month}>
            <rect className="for-heat" x={x} y={height - heat} width={bar} height={heat} />
            <rect className="for-cooling" x={x} y={height - whole} width={bar} height={whole - heat} />
            <text x={x + bar / 2} y={height - whole - 5}>
              {month.cost.toFixed(0)}
            </text>
            <text x={x + bar / 2} y={height + 16}>
              {monthNames[month.month - 1]}
            </text>
          </g>
        );
      })}
    </svg>
  );
};
