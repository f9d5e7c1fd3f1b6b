import type { Account } from '../account/types.ts';
import type { BufferZoneKind, Survey } from '../survey/types.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atLeast, undecided } from './verdict.ts';

/**
 * A caution, never a clearance: with a combustion appliance inside, a house that the account finds depressurised
 * may pull flue gas in. Silence about burners is no answer, so it leaves the question open. It can fail or stay open; only a test on site can clear it.
 */
export function combustionSafety(survey: Survey, accounts: readonly Account[]): readonly Check[] {
  const { combustionInside } = survey.house;
  if (combustionInside === false || accounts.length === 0) return [];
  const rule = tradeLimit('depressurisation');
  const lowest = Math.min(...accounts.map((account) => lowestPressure_Pa(survey, account)));
  const verdict = atLeast(lowest, rule.least!);
  return [
    {
      ...(verdict.result === 'pass' || combustionInside === undefined ? undecided(verdict) : verdict),
      id: 'safety-depressurisation',
      group: 'safety',
      title: rule.title,
      subject: 'house',
      quantity: 'pressure',
      clause: combustionInside
        ? 'Combustion appliances inside the house'
        : 'Whether a burner takes its air from the house is not surveyed',
      source: rule.source,
      evidence:
        'Computed from the survey; exhaust fans that it does not list lower the pressure further. Only a worst-case draft test on site, by a licensed heating contractor or a technician certified for combustion safety as the local code asks, can clear it.',
      remedy:
        'Before tightening or changing ducts have a licensed heating contractor or a technician certified for combustion safety test draft and spillage, and again afterwards.',
    },
  ];
}

/** Zones in which an appliance may stand and draw its air. */
const applianceZones: ReadonlySet<BufferZoneKind> = new Set(['basement', 'garage', 'crawlspace']);

/** Lowest pressure to outdoors of any room or zone that may hold the appliance: the survey does not say which does. */
function lowestPressure_Pa(survey: Survey, { air }: Account): number {
  const places = new Set([
    ...survey.rooms.map((room) => room.id),
    ...survey.zones.filter((zone) => applianceZones.has(zone.kind)).map((zone) => zone.id),
  ]);
  const pressures = air.nodes.flatMap((node, n) =>
    (node.kind === 'room' || node.kind === 'zone') && places.has(node.id)
      ? [air.solution.pressure_Pa[n]!]
      : [],
  );
  return Math.min(...pressures);
}
