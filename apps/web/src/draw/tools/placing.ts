import type { PlanPoint } from '@airledger/engine';
import type { Tool } from '../tool.ts';

/** A tool that puts one thing at a point lets that point be typed, too: its distances from the origin. */
export const placing = <State>(tool: Tool<State>): Tool<State> => ({
  ...tool,
  fields: () => [
    { label: 'East', dimension: 'length' },
    { label: 'North', dimension: 'length' },
  ],
  on: (state, event, context) => {
    if (event.kind !== 'typed') return tool.on(state, event, context);
    const [east, north] = event.values;
    if (east === undefined || north === undefined)
      return { state, note: 'Type both distances from the origin.' };
    const at: PlanPoint = [east, north];
    return tool.on(state, { kind: 'press', place: { raw: at, at, on: 'nothing' } }, context);
  },
});
