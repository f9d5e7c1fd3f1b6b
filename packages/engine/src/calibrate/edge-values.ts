import type { ModelEdge } from './types.ts';

/** Edges of a model laid out for loops that allocate nothing. */
export type EdgeTable = {
  readonly count: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly exponent: Float64Array;
  readonly lnCoefficient: Float64Array;
  /** Terms of edge e stand at termStart[e] … termStart[e+1]−1. */
  readonly termStart: Int32Array;
  readonly termParameter: Int32Array;
  readonly termWeight: Float64Array;
  /** −1 where an edge is no half of a leak; sharePart is 1 to outdoors, −1 inside. */
  readonly shareParameter: Int32Array;
  readonly sharePart: Int8Array;
  readonly sourceParameter: Int32Array;
  readonly source_Pa: Float64Array;
};

/** Coefficients and sources at one set of unknowns. */
export type EdgeValues = {
  readonly coefficient: Float64Array;
  readonly source_Pa: Float64Array;
  /** ∂ ln C/∂θ of the share, 0 elsewhere. */
  readonly shareSlope: Float64Array;
};

export function edgeTable(edges: readonly ModelEdge[]): EdgeTable {
  const count = edges.length;
  const termStart = new Int32Array(count + 1);
  edges.forEach((edge, e) => {
    termStart[e + 1] = termStart[e]! + edge.terms.length;
  });
  const terms = edges.flatMap((edge) => edge.terms);
  return {
    count,
    from: Int32Array.from(edges, (edge) => edge.from),
    to: Int32Array.from(edges, (edge) => edge.to),
    exponent: Float64Array.from(edges, (edge) => edge.exponent),
    lnCoefficient: Float64Array.from(edges, (edge) => edge.lnCoefficient),
    termStart,
    termParameter: Int32Array.from(terms, (term) => term.parameter),
    termWeight: Float64Array.from(terms, (term) => term.weight),
    shareParameter: Int32Array.from(edges, (edge) => edge.share?.parameter ?? -1),
    sharePart: Int8Array.from(edges, (edge) => (edge.share?.goes === 'inside' ? -1 : 1)),
    sourceParameter: Int32Array.from(edges, (edge) => edge.source?.parameter ?? -1),
    source_Pa: Float64Array.from(edges, (edge) => edge.source?.pressure_Pa ?? 0),
  };
}

export const emptyEdgeValues = (count: number): EdgeValues => ({
  coefficient: new Float64Array(count),
  source_Pa: new Float64Array(count),
  shareSlope: new Float64Array(count),
});

/** Works out the edges at θ. */
export function setEdgeValues(table: EdgeTable, theta: Float64Array, values: EdgeValues): void {
  for (let e = 0; e < table.count; e++) {
    let ln = table.lnCoefficient[e]!;
    for (let t = table.termStart[e]!; t < table.termStart[e + 1]!; t++)
      ln += table.termWeight[t]! * theta[table.termParameter[t]!]!;
    let coefficient = Math.exp(ln);
    const share = table.shareParameter[e]!;
    if (share >= 0) {
      const part = table.sharePart[e]!;
      const other = 1 / (1 + Math.exp(part * theta[share]!));
      coefficient *= 1 - other;
      values.shareSlope[e] = part * other;
    }
    values.coefficient[e] = coefficient;
    const source = table.sourceParameter[e]!;
    values.source_Pa[e] = source < 0 ? 0 : table.source_Pa[e]! * Math.exp(2 * theta[source]!);
  }
}
