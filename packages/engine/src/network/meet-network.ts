import { resistanceBetween } from '../numerics/ldl.ts';
import { evaluateLaws } from './pass.ts';
import { RECORD } from './record.ts';
import type { StepState } from './second-order.ts';

const { DROP, FLOW, FROM, LINKS, OFFSET, SLOPE, SOURCE, STRIDE, TO } = RECORD;

/** Newton steps on one law against one straight line: the next solve puts right what is left. */
const MOST_STEPS = 8;
const CLOSE_ENOUGH = 1e-6;

/** Least share of the series resistance that must lie outside an element for its line to be told from round-off. */
const LEAST_OUTSIDE = 1e-9;

/**
 * Sends an edited record to the flow where its new law meets the rest of the network, which seen from its two ends is
 * a pressure behind a resistance (Thévenin), the latter from the latest factor. The record then waits for evaluation there.
 *
 * @param conductance what the record had in the latest factor
 */
export function meetNetwork(state: StepState, kind: number, record: number, conductance: number): void {
  const { records: R, links, head, pattern, pivots, factor, path } = state;
  const at = record * STRIDE;
  const from = links[record * LINKS + FROM]!;
  const to = links[record * LINKS + TO]!;
  const together = resistanceBetween(pattern, pivots, factor, from, to, path);
  const outside = 1 - conductance * together;
  if (!(outside > LEAST_OUTSIDE)) return;
  const resistance = together / outside;
  const start = R[at + FLOW]!;
  const drive = head[from]! - head[to]! - R[at + OFFSET]!;
  let flow = start;
  for (let i = 0; i < MOST_STEPS; i++) {
    evaluateLaws(state, kind, record, record + 1);
    const step = (drive - resistance * (flow - start) - R[at + DROP]!) / (R[at + SLOPE]! + resistance);
    flow += step;
    R[at + SOURCE] = flow;
    if (!(Math.abs(step) > CLOSE_ENOUGH * Math.abs(flow))) return;
  }
}
