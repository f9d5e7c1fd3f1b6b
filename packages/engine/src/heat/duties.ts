import type { Air } from '../air/types.ts';
import type { Mode, Survey } from '../survey/types.ts';
import type { Carried, Columns } from './carry.ts';
import type { DirectedFlow } from './directed-flow.ts';

/** What one thermostat group owes to the rooms. */
export type Duty = {
  /** False when no equipment of the group works in this mode, or no fan of it runs. */
  readonly active: boolean;
  /** Part of each room's demand that it must bring, by the room's row. */
  readonly parts: ReadonlyMap<number, number>;
  /** Row of (its part of what all registers bring − what its own bring), W while the fans run; 0 with one group. */
  readonly others: Float64Array;
};

/**
 * Each room's demand is owed by the active groups in proportion to the air they send it, by the first when none does.
 * Groups that share rooms thus each bring their own part, and none lets the other work alone.
 */
export function dutiesOf(
  survey: Survey,
  mode: Mode,
  air: Air,
  flow: DirectedFlow,
  columns: Columns,
  groups: readonly (readonly number[])[],
  temperatures: Carried,
  specificHeat_JkgK: number,
): Duty[] {
  const active = groups.map((members) =>
    members.some(
      (s) => survey.systems[s]!.equipment[mode] !== undefined && survey.systems[s]!.airHandler.fan.running,
    ),
  );
  const { width } = columns;
  /** For each group and room, what its registers bring, as a row of coefficients, and the air they send. */
  const sent = groups.map(() => new Map<number, { mass_kgs: number; row: Float64Array }>());
  air.elements.forEach((element, e) => {
    const into = air.nodes[flow.lower[e]!]!;
    const mass_kgs = flow.mass_kgs[e]!;
    if (element.kind !== 'terminal' || element.side !== 'supply' || into.kind !== 'room' || !(mass_kgs > 0))
      return;
    const group = groups.findIndex((members) =>
      members.some((s) => survey.systems[s]!.id === element.system),
    );
    const room = columns.place.get(into.id)!;
    const one = sent[group]!.get(room) ?? { mass_kgs: 0, row: new Float64Array(width) };
    const rate = mass_kgs * specificHeat_JkgK;
    for (let k = 0; k < width; k++) one.row[k]! += rate * temperatures.leaving[e * width + k]!;
    one.row[room]! -= rate;
    one.mass_kgs += mass_kgs;
    sent[group]!.set(room, one);
  });
  const first = active.indexOf(true);
  return groups.map((_, group): Duty => {
    const parts = new Map<number, number>();
    const others = new Float64Array(width);
    const add = (row: Float64Array | undefined, factor: number) => {
      if (row) for (let k = 0; k < width; k++) others[k]! += factor * row[k]!;
    };
    for (const { id } of survey.rooms) {
      const room = columns.place.get(id)!;
      const own = sent[group]!.get(room);
      const total_kgs = sent.reduce(
        (sum, map, g) => sum + (active[g] ? (map.get(room)?.mass_kgs ?? 0) : 0),
        0,
      );
      const part = !active[group]
        ? 0
        : total_kgs > 0
          ? (own?.mass_kgs ?? 0) / total_kgs
          : group === first
            ? 1
            : 0;
      if (part > 0) parts.set(room, part);
      for (const map of sent) add(map.get(room)?.row, part);
      add(own?.row, -1);
    }
    return { active: active[group]!, parts, others };
  });
}
