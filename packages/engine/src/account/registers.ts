import type { Air } from '../air/types.ts';
import type { Heat, HeatState } from '../heat/types.ts';

/** A register that blows into a room, by its element of the network. */
export type Register = {
  readonly element: number;
  readonly system: string;
  readonly room: string;
  readonly mass_kgs: number;
};

/** All registers that blow into rooms while the fans run. */
export function blowingRegisters(air: Air, heat: Heat): Register[] {
  const registers: Register[] = [];
  air.elements.forEach(({ kind, side, system }, element) => {
    if (kind !== 'terminal' || side !== 'supply') return;
    const into = air.nodes[heat.flow.lower[element]!]!;
    const mass_kgs = heat.flow.mass_kgs[element]!;
    if (into.kind === 'room' && mass_kgs > 0)
      registers.push({ element, system: system!, room: into.id, mass_kgs });
  });
  return registers;
}

/** Heat that registers bring into rooms, W, counted from each room's own temperature; positive helps. */
export function broughtHeat_W(heat: Heat, state: HeatState, registers: readonly Register[]): number {
  const sign = heat.mode === 'heating' ? 1 : -1;
  let sum = 0;
  for (const { element, room, mass_kgs } of registers) {
    const rate = mass_kgs * heat.specificHeat_JkgK;
    sum += sign * state.share * rate * (state.leavingTemperature_C[element]! - state.temperature_C[room]!);
  }
  return sum;
}
