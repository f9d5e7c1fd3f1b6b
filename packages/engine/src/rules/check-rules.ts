import type { Account } from '../account/types.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import { usedModes } from '../survey/used-modes.ts';
import { airVelocity } from './air-velocity.ts';
import { buildingCavity } from './building-cavity.ts';
import { codeEdition } from './code-edition.ts';
import { codeLeakage } from './code-leakage.ts';
import { combustionSafety } from './combustion-safety.ts';
import { ductCondensation } from './duct-condensation.ts';
import { equipmentRange, standingOf } from './equipment-range.ts';
import { codeInsulation, tradeInsulation } from './insulation.ts';
import { openingsBothWays } from './openings-both-ways.ts';
import { projectLeakage } from './project-leakage.ts';
import { roomPressure } from './room-pressure.ts';
import type { Check, DayAccounts } from './types.ts';

/**
 * How a house stands against its energy code, the project's own limits, trade practice and cautions of safety.
 * A check passes or fails only by what is known: without a test, or with a default, it says that it cannot tell
 * and what would settle it.
 *
 * With one design day alone, checks that take the worse of the two are by that day, and those of the other are left out.
 */
export function checkRules(survey: Survey, accounts: DayAccounts): Check[] {
  const used = solved(accounts, survey);
  return [
    ...survey.systems.flatMap((system) => systemChecks(survey, system, accounts)),
    ...roomPressure(survey, used),
    ...combustionSafety(survey, used),
  ];
}

const solved = (accounts: DayAccounts, used: Pick<Survey, 'systems'>): Account[] =>
  usedModes(used).flatMap((mode) => accounts[mode] ?? []);

function systemChecks(survey: Survey, system: AirSystem, accounts: DayAccounts): readonly Check[] {
  const { cooling } = system.equipment;
  const used = solved(accounts, { systems: [system] });
  const design = accounts[cooling ? 'cooling' : 'heating'];
  return [
    ...codeChecks(survey, system),
    ...(design ? projectLeakage(survey, system, standingOf(design, system.id)) : []),
    ...openingsBothWays(system),
    ...airVelocity(system, used),
    ...equipmentRange(survey, system, accounts),
    ...tradeInsulation(survey, system),
    ...(cooling && accounts.cooling ? ductCondensation(survey, system, accounts.cooling) : []),
  ];
}

function codeChecks(survey: Survey, system: AirSystem): readonly Check[] {
  const edition = codeEdition(survey.code.edition);
  if (!edition) return [unknownEdition(survey, system)];
  return [
    codeLeakage(survey, system, edition),
    ...codeInsulation(survey, system, edition),
    ...buildingCavity(survey, system, edition),
  ];
}

const unknownEdition = (survey: Survey, system: AirSystem): Check => ({
  id: `code-${system.id}`,
  group: 'code',
  title: 'Energy code',
  result: 'cannot tell',
  subject: system.id,
  quantity: 'none',
  sense: 'yes or no',
  clause: survey.code.edition,
  source: 'no rules on file',
  evidence: `The rules of ${survey.code.edition} are not on file; name one that is, or check by hand.`,
});
