/** One line of a benchmark's report. */
export type Line = {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly limit?: { readonly kind: 'most' | 'least'; readonly value: number };
};

/** A figure without a limit. */
export function plain(name: string, value: number, unit: string): Line {
  return { name, value, unit };
}

/** A figure that must stay at or above ('least') or at or below ('most') a limit. */
export function limited(
  name: string,
  value: number,
  unit: string,
  kind: 'most' | 'least',
  limit: number,
): Line {
  return { name, value, unit, limit: { kind, value: limit } };
}

/** Whether the figure keeps its limit; NaN never does. */
export function keepsLimit({ value, limit }: Line): boolean {
  if (limit === undefined) return Number.isFinite(value);
  return limit.kind === 'most' ? value <= limit.value : value >= limit.value;
}

/** `name: value unit (limit …)`. */
export function lineText(line: Line): string {
  const unit = line.unit === '' ? '' : ` ${line.unit}`;
  const limit =
    line.limit === undefined
      ? ''
      : ` (limit ${line.limit.kind === 'most' ? '≤' : '≥'} ${line.limit.value}${unit})`;
  const verdict = keepsLimit(line) ? '' : '  MISSED';
  return `${line.name}: ${Number(line.value.toPrecision(4))}${unit}${limit}${verdict}`;
}
