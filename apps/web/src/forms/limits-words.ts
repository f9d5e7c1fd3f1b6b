import { type Dimension, parseQuantity } from '@airledger/engine';
import type { FieldKind } from './field-kind.ts';

type Show = (si: number, dimension: Dimension) => string;

const ends = (least: string | undefined, most: string | undefined): string =>
  least !== undefined && most !== undefined
    ? `${least} to ${most}`
    : least !== undefined
      ? `${least} or more`
      : most !== undefined
        ? `${most} or less`
        : '';

/** "0 % to 60 %": what a field may be, in the units that `show` writes; empty where anything goes. */
export const limitsWords = (kind: FieldKind, show: Show): string => {
  if (kind.kind === 'count') return ends(kind.least?.toString(), kind.most?.toString());
  if (kind.kind !== 'quantity') return kind.limits ?? '';
  const shown = (text: string | undefined): string | undefined => {
    const parsed = text === undefined ? undefined : parseQuantity(text, kind.dimension);
    return parsed && 'value' in parsed ? show(parsed.value, kind.dimension) : undefined;
  };
  return ends(shown(kind.least), shown(kind.most));
};
