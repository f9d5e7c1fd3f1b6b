import { airTemperatures } from '../account/air-temperatures.ts';
import type { Account } from '../account/types.ts';
import { type AirNetwork, buildAirNetwork } from '../air/build-air-network.ts';
import { damperCoefficient } from '../ducts/fitting-loss.ts';
import type { AirSystem, DuctPart, Survey } from '../survey/types.ts';

/** A supply register in the air network, with the piece of duct in which its damper stands. */
export type DamperRun = {
  readonly system: string;
  readonly terminal: string;
  readonly room: string;
  /** Element of the register. */
  readonly element: number;
  readonly damper?: {
    readonly part: string;
    readonly position: number;
    /** Element with the damper's loss, and that loss at present. */
    readonly piece: number;
    readonly coefficient: number;
    /** Drop = coefficient × this × flow², Pa/(m³/s)². */
    readonly perFlowSquared: number;
  };
};

/** Every supply register of a house with the damper that sets it alone, if there is one. */
function damperRuns(survey: Survey, { network, elements }: AirNetwork): DamperRun[] {
  return survey.systems.flatMap((system) =>
    system.parts.flatMap((part): DamperRun[] => {
      if (part.side !== 'supply' || !part.terminal) return [];
      const element = elements.findIndex(({ terminal }) => terminal === part.terminal!.id);
      const withDamper = ownDamper(system, part);
      const run = { system: system.id, terminal: part.terminal.id, room: part.terminal.room, element };
      if (!withDamper) return [run];
      const piece = elements.findIndex(
        ({ kind, of, system: owner }) => kind === 'duct' && of === withDamper.id && owner === system.id,
      );
      const law = network.elements[piece]!;
      if (law.kind !== 'duct') throw new Error(`the first piece of '${withDamper.id}' is no duct`);
      const { density_kgm3 } = network.air;
      return [
        {
          ...run,
          damper: {
            part: withDamper.id,
            position: withDamper.damper!,
            piece,
            coefficient: damperCoefficient(withDamper.damper!),
            perFlowSquared:
              (0.5 * density_kgm3 * (density_kgm3 / (law.density_kgm3 ?? density_kgm3))) / law.area_m2 ** 2,
          },
        },
      ];
    }),
  );
}

/** The damper nearest to a register among the parts that serve it and no other. */
function ownDamper({ parts }: AirSystem, end: DuctPart): DuctPart | undefined {
  for (let part: DuctPart | undefined = end; part; part = parts.find(({ id }) => id === part!.joins)) {
    if (part !== end && (part.terminal || parts.filter(({ joins }) => joins === part!.id).length > 1))
      return undefined;
    if (part.damper !== undefined) return part;
  }
  return undefined;
}

/** The survey with the dampers of these runs at other positions; a run whose position is undefined stays as it is. */
export function withDampers(
  survey: Survey,
  runs: readonly DamperRun[],
  positions: readonly (number | undefined)[],
): Survey {
  return {
    ...survey,
    systems: survey.systems.map((system) => ({
      ...system,
      parts: system.parts.map((part) => {
        const run = runs.findIndex((one) => one.system === system.id && one.damper?.part === part.id);
        return positions[run] === undefined ? part : { ...part, damper: positions[run] };
      }),
    })),
  };
}

/** The survey with a balancing damper, wide open, in every supply run that has none of its own. */
export function withNewDampers(survey: Survey): Survey {
  return {
    ...survey,
    systems: survey.systems.map((system) => ({
      ...system,
      parts: system.parts.map((part) =>
        part.side === 'supply' && part.terminal && !ownDamper(system, part) ? { ...part, damper: 1 } : part,
      ),
    })),
  };
}

/** The air network that an account stands on, and its runs. */
export function runsOf({ survey, mode, loads }: Account): { network: AirNetwork; runs: DamperRun[] } {
  const network = buildAirNetwork(survey, mode, airTemperatures(survey, mode, loads));
  return { network, runs: damperRuns(survey, network) };
}
