export { FlowDiagram, type FlowDiagramProps } from './flow-diagram.tsx';
export { type FlowStream, flowExtent, flowStreams } from './flow-streams.ts';
export { handoverHtml } from './handover-html.tsx';
export type { HandoverInput, HandoverState } from './handover-input.ts';
