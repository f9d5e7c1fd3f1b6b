import { account } from '../account/account.ts';
import { airTemperatures } from '../account/air-temperatures.ts';
import { solveAir } from '../air/solve-air.ts';
import type { Survey } from '../survey/types.ts';
import { type DamperRun, runsOf, withDampers } from './damper-runs.ts';
import type { DamperSetting, FieldSheet } from './types.ts';

/**
 * The proportional method as a sheet for the field (ASHRAE Standard 111 describes the method; from memory): open every
 * damper, find the register with the least share of its design air and leave it, then turn the others one by one,
 * in rising order of their share, branch by branch, until each has the ratio to the key register that the model foresees.
 * Later turns raise both readings alike, so a ratio once set stays. Readings after each turn come from the full air solve.
 *
 * @param settings final positions, as balancing one season or both gave them
 */
export function fieldSheets(
  survey: Survey,
  mode: 'heating' | 'cooling',
  settings: readonly DamperSetting[],
): FieldSheet[] {
  const found = account(survey, mode);
  const { runs } = runsOf(found);
  const positions = runs.map(({ damper }): number | undefined => (damper ? 1 : undefined));
  // Dampers move air alone: loads, and with them the densities in the ducts, stay as they are.
  const conditions = airTemperatures(survey, mode, found.loads);
  let air = found.air;
  const solve = () => {
    air = solveAir(withDampers(survey, runs, positions), mode, conditions, air);
    return runs.map(({ element }) => air.solution.flow_m3s[element]!);
  };
  const target = (run: number) => settings[run]!.target_m3s;
  const open = solve();
  return survey.systems.flatMap(({ id }): FieldSheet[] => {
    const own = runs.flatMap((run, index) => (run.system === id && run.damper ? [index] : []));
    if (own.length === 0) return [];
    const byShare = own.toSorted((a, b) => open[a]! / target(a) - open[b]! / target(b));
    const key = own.toSorted((a, b) => settings[b]!.position! - settings[a]!.position!)[0]!;
    // The key comes first though it stays open: where another register turns out to lack more, it is set like the rest.
    const order = [key, ...inBranches(survey, runs, byShare).filter((run) => run !== key)];
    const steps = order.map((run) => {
      const from = positions[run]!;
      positions[run] = settings[run]!.position!;
      const flow = solve();
      return {
        system: id,
        part: runs[run]!.damper!.part,
        terminal: runs[run]!.terminal,
        from,
        to: positions[run]!,
        predicted_m3s: flow[run]!,
        keyPredicted_m3s: flow[key]!,
        aim: flow[run]! / target(run) / (flow[key]! / target(key)),
      };
    });
    return [
      {
        system: id,
        key: runs[key]!.terminal,
        first: own.map((run) => ({
          terminal: runs[run]!.terminal,
          target_m3s: target(run),
          predicted_m3s: open[run]!,
        })),
        steps,
      },
    ];
  });
}

/** Keeps the order but lets registers of one branch follow each other, as the branch they join first comes up. */
function inBranches(survey: Survey, runs: readonly DamperRun[], order: readonly number[]): number[] {
  const branchOf = (run: number) => {
    const { system, damper } = runs[run]!;
    return survey.systems.find(({ id }) => id === system)!.parts.find(({ id }) => id === damper!.part)!.joins;
  };
  const branches = [...new Set(order.map(branchOf))];
  return branches.flatMap((branch) => order.filter((run) => branchOf(run) === branch));
}
