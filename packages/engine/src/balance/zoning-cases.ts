import { account } from '../account/account.ts';
import type { Account } from '../account/types.ts';
import type { AirSystem, DuctPart, Mode, Survey } from '../survey/types.ts';
import type { ZoningCase } from './types.ts';

/**
 * What zone dampers do to fan flow, external static pressure and bypass: all open, each one shut, and each one alone
 * open. A zone damper is one that sets the air of more than one register.
 */
export function zoningCases(survey: Survey, mode: Mode): ZoningCase[] {
  let near: Account | undefined;
  return survey.systems.flatMap((system) => {
    const dampers = system.parts.filter(
      (part) => part.damper !== undefined && registersBehind(system, part) > 1,
    );
    if (dampers.length === 0) return [];
    const ids = dampers.map(({ id }) => id);
    const sets = [
      [],
      ...ids.map((id) => [id]),
      ...(ids.length > 2 ? ids.map((id) => ids.filter((one) => one !== id)) : []),
    ];
    return sets.map((shut): ZoningCase => {
      near = account(shutParts(survey, system.id, ids, shut), mode, near);
      const { air } = near;
      const standing = near.systems.find((one) => one.system === system.id)!;
      const bypass = air.elements.findIndex(
        (element) => element.kind === 'bypass' && element.system === system.id,
      );
      return {
        system: system.id,
        shut,
        fanFlow_m3s: standing.fanFlow_m3s,
        externalStatic_Pa: standing.externalStatic_Pa,
        bypass_m3s: bypass < 0 ? 0 : air.solution.flow_m3s[bypass]!,
      };
    });
  });
}

function registersBehind({ parts }: AirSystem, part: DuctPart): number {
  const own = part.side === 'supply' && part.terminal ? 1 : 0;
  const behind = parts.filter(({ joins, side }) => joins === part.id && side === 'supply');
  return behind.reduce((sum, one) => sum + registersBehind({ parts } as AirSystem, one), own);
}

const shutParts = (
  survey: Survey,
  system: string,
  zones: readonly string[],
  shut: readonly string[],
): Survey => ({
  ...survey,
  systems: survey.systems.map((one) =>
    one.id !== system
      ? one
      : {
          ...one,
          parts: one.parts.map((part) =>
            zones.includes(part.id) ? { ...part, damper: shut.includes(part.id) ? 0 : 1 } : part,
          ),
        },
  ),
});
