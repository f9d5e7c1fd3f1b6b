/**
 * How equipment answers a call of its thermostat. A call of 0 … 1 is the part of the hour in which it runs at its base
 * output; 1 … 2 adds its supplementary heat in part, when it has any; what lies beyond asks for larger equipment of the
 * same kind at the same airflow, so that no fan ever runs more than all the time.
 */
export type Stages = { readonly base_W: number; readonly supplementary_W: number };

/** The greatest call that real equipment can answer: 2 with supplementary heat, else 1. */
export const fullCall = ({ supplementary_W }: Stages): number => (supplementary_W === 0 ? 1 : 2);

/** Part of the hour in which the fan runs, and the mean output meanwhile, W. */
export function answer(stages: Stages, call: number): { share: number; output_W: number } {
  const { base_W, supplementary_W } = stages;
  if (call <= 1) return { share: call, output_W: base_W };
  const added = Math.min(call, fullCall(stages)) - 1;
  const larger = 1 + Math.max(0, call - fullCall(stages));
  return { share: 1, output_W: (base_W + added * supplementary_W) * larger };
}
