export { type CompiledNetwork, compileNetwork, editElement, editElements } from './compile.ts';
export { evaluateElement } from './evaluate-element.ts';
export { frictionFactor } from './friction.ts';
export { leakFlow } from './leak-law.ts';
export { type FlowSensitivity, flowSensitivity } from './sensitivity.ts';
export { type SolveOptions, solveNetwork } from './solve.ts';
export type {
  ElementLaw,
  FrictionLaw,
  Junction,
  Network,
  NetworkAir,
  NetworkElement,
  NetworkNode,
  NetworkSolution,
} from './types.ts';
