import type { Account, SystemStanding } from '../account/types.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import { decides, known } from './known.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check, DayAccounts } from './types.ts';
import { atMost, undecided, type Verdict, within } from './verdict.ts';

const computed = 'Computed from the survey; a reading at the cabinet would confirm it.';

/** Whether the equipment works inside its ranges: external static, airflow per ton, temperature rise. */
export function equipmentRange(survey: Survey, system: AirSystem, accounts: DayAccounts): readonly Check[] {
  const { heating, cooling } = system.equipment;
  const inHeating = heating && accounts.heating && standingOf(accounts.heating, system.id);
  const inCooling = cooling && accounts.cooling && standingOf(accounts.cooling, system.id);
  const used = [inHeating, inCooling].filter((standing) => standing !== undefined);
  return [
    ...(used.length > 0 ? [externalStatic(survey, system, used)] : []),
    ...(inCooling ? [airflowPerTon(system, inCooling, cooling.total_W)] : []),
    ...(inHeating && heating.rise_K ? [temperatureRise(survey, system, inHeating, heating.rise_K)] : []),
  ];
}

/** A limit off the nameplate does not decide while it is a default. */
function byNameplate(survey: Survey, path: string, verdict: Verdict): Verdict & Pick<Check, 'evidence'> {
  return decides(known(survey, path))
    ? { ...verdict, evidence: computed }
    : {
        ...undecided(verdict),
        evidence: 'Computed from the survey, but the limit is a default; the nameplate would settle it.',
      };
}

/** How a system stands in one account. */
export const standingOf = (account: Account, system: string): SystemStanding =>
  account.systems.find((one) => one.system === system)!;

function externalStatic(survey: Survey, system: AirSystem, standings: readonly SystemStanding[]): Check {
  const worst = standings.reduce((high, one) =>
    one.externalStatic_Pa > high.externalStatic_Pa ? one : high,
  );
  const path = `systems/${system.id}/airHandler/fan/ratedStatic`;
  const verdict = byNameplate(survey, path, atMost(worst.externalStatic_Pa, worst.ratedExternalStatic_Pa));
  return {
    ...verdict,
    id: `trade-external-static-${system.id}`,
    group: 'trade',
    title: 'External static pressure against the rating',
    subject: system.id,
    quantity: 'pressure',
    clause: 'Rated external static pressure of the air handler',
    source: 'nameplate in the survey',
    evidence: worst.fanAtLimit ? `${verdict.evidence} The fan can not hold its set flow.` : verdict.evidence,
    ...(verdict.result === 'fail' && {
      remedy: 'Look at filter, coil and the return first; then the longest run.',
    }),
  };
}

function airflowPerTon(system: AirSystem, standing: SystemStanding, total_W: number): Check {
  const rule = tradeLimit('airflow-per-ton');
  const verdict = within(standing.fanFlow_m3s / total_W, rule.least!, rule.most!);
  return {
    ...verdict,
    id: `trade-airflow-per-ton-${system.id}`,
    group: 'trade',
    title: rule.title,
    subject: system.id,
    quantity: 'airflow per capacity',
    clause: rule.title,
    source: rule.source,
    evidence: computed,
    ...(verdict.result === 'fail' && {
      remedy: 'Set the fan speed, or lower the resistance of filter, coil and ducts.',
    }),
  };
}

function temperatureRise(
  survey: Survey,
  system: AirSystem,
  standing: SystemStanding,
  rise: { readonly low: number; readonly high: number },
): Check {
  const path = `systems/${system.id}/equipment/heating/temperatureRise`;
  const verdict = byNameplate(
    survey,
    path,
    within(standing.leavesAt_C - standing.returnsAt_C, rise.low, rise.high),
  );
  return {
    ...verdict,
    id: `trade-temperature-rise-${system.id}`,
    group: 'trade',
    title: 'Temperature rise of the furnace',
    subject: system.id,
    quantity: 'temperature difference',
    clause: 'Temperature rise on the nameplate',
    source: 'nameplate in the survey',
    ...(verdict.result === 'fail' && { remedy: 'Set the fan speed so that the rise is in the window.' }),
  };
}
