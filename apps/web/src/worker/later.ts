/** What the worker does only when it is asked to. */
export { explainImbalance, explainRoom, unevenGroups } from '@airledger/engine';
export { guidance, quickStart } from '@airledger/job';
export { sampleRanges } from './sample-ranges.ts';
