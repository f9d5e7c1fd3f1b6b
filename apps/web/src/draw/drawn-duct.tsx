import { type JobPart, planPathOf } from '@airledger/job';
import { memo } from 'react';
import { open, ribbonShape } from '../plan/ribbon-shape.ts';
import { toSheet } from './sheet.ts';

/** A stretch of a duct as its ribbon shows it: rounded, so that what looks the same is not drawn again. */
export type Stretch = {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly strength: number;
};

type Props = {
  readonly part: JobPart;
  readonly stretches: readonly Stretch[];
  readonly chosen: boolean;
  readonly hatch: string;
};

const same = (a: Props, b: Props): boolean =>
  a.part === b.part &&
  a.chosen === b.chosen &&
  a.hatch === b.hatch &&
  a.stretches.length === b.stretches.length &&
  a.stretches.every((one, i) => {
    const other = b.stretches[i]!;
    return (
      one.from === other.from &&
      one.to === other.to &&
      one.width === other.width &&
      one.strength === other.strength
    );
  });

const Ribbon = ({ part, stretches, chosen, hatch }: Props) => {
  const path = planPathOf(part).map(toSheet);
  const { pieces, outline } = ribbonShape(path, stretches);
  return (
    <g className={`drawn-duct ${part.side} ${part.role}${chosen ? ' chosen' : ''}`} data-part={part.id}>
      <path className="ribbon-edge" d={outline} />
      {pieces.map((d, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: stretches have no name but their order
          key={i}
          d={d}
          style={{
            fill:
              part.side === 'return'
                ? `url(#${hatch})`
                : `color-mix(in oklab, var(--ribbon) ${Math.round(100 * stretches[i]!.strength)}%, var(--ribbon-faded))`,
          }}
        />
      ))}
      <path className="drawn-axis" d={open(path)} />
    </g>
  );
};

/** A duct as a ribbon, as wide as the air in it; without an account, a thin one. */
export const DrawnDuct = memo(Ribbon, same);
