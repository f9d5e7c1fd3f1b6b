import { equivalentDiameter_m } from '../ducts/section-geometry.ts';
import type { AirSystem, DuctPart, Survey } from '../survey/types.ts';
import { toSi } from '../units/dimension.ts';
import type { CodeEdition, InsulationRow } from './code-edition.ts';
import { isInside, isWhollyInside, placeName, zoneKind } from './envelope.ts';
import { decides, knownText, partKnown } from './known.ts';
import { tradeLimit } from './trade-limit.ts';
import type { Check } from './types.ts';
import { atLeast } from './verdict.ts';

/** What is asked of one part. */
type Demand = {
  /** Where the part is, in words that group parts. */
  readonly place: string;
  readonly resistance_m2KW: number;
  readonly alternatives: readonly { readonly resistance_m2KW: number; readonly source: string }[];
  readonly clause: string;
  readonly source: string;
};

/** Labels are nominal: RSI 1.4 is the metric label of R-8 (1.409). */
const labelRounding = 0.01;

/**
 * Duct insulation outside the envelope against an energy code: one check for each surrounding space, side and
 * R-value asked. A value that is a default or an assumption never passes.
 */
export function codeInsulation(survey: Survey, system: AirSystem, edition: CodeEdition): readonly Check[] {
  if (isWhollyInside(survey, system))
    return [
      {
        id: `code-insulation-${system.id}`,
        group: 'code',
        title: 'Duct insulation',
        result: 'exempt',
        subject: system.id,
        quantity: 'insulation',
        sense: 'at least',
        clause: `${edition.edition} ${edition.insulationExempt.clause}`,
        source: edition.insulationExempt.source,
        evidence: 'All ducts are inside the thermal envelope.',
      },
    ];
  const outside = system.parts.filter((part) => !isInside(survey, part.zone));
  const checks = insulationChecks(survey, system, outside, 'code', (part) => {
    const row = insulationRow(edition, survey, part);
    const isSmall = row.small !== undefined && equivalentDiameter_m(part.section) < row.small.below_m;
    return {
      ...row,
      place: placeName(survey, part.zone),
      clause: `${edition.edition} ${row.clause}`,
      resistance_m2KW: isSmall ? row.small.resistance_m2KW : row.resistance_m2KW,
      alternatives: isSmall ? [] : row.alternatives,
    };
  });
  const { buried } = edition;
  return checks.map((check) =>
    buried && check.result === 'fail'
      ? {
          ...check,
          remedy: `${check.remedy} Ducts buried in ceiling insulation have their own clause (${edition.edition} ${buried.clause}); the survey does not record burial.`,
        }
      : check,
  );
}

/** The trade's own rule: R-8 outside the envelope, R-6 inside. */
export function tradeInsulation(survey: Survey, system: AirSystem): readonly Check[] {
  return insulationChecks(survey, system, system.parts, 'trade', (part) => {
    const place = isInside(survey, part.zone) ? 'inside' : 'outside';
    const rule = tradeLimit(`insulation-${place}`);
    return {
      place: `${place} the envelope`,
      resistance_m2KW: rule.least!,
      alternatives: [],
      clause: 'R-8 outside the envelope, R-6 inside',
      source: rule.source,
    };
  });
}

function insulationRow(edition: CodeEdition, survey: Survey, part: DuctPart): InsulationRow {
  const where = zoneKind(survey, part.zone) === 'attic' ? 'attic' : 'other';
  return edition.insulation.find(
    (row) => row.where === where && (row.side === 'any' || row.side === part.side),
  )!;
}

function insulationChecks(
  survey: Survey,
  system: AirSystem,
  parts: readonly DuctPart[],
  group: 'code' | 'trade',
  demandOf: (part: DuctPart) => Demand,
): readonly Check[] {
  const groups = new Map<string, { demand: Demand; parts: DuctPart[] }>();
  for (const part of parts) {
    const demand = demandOf(part);
    const key = `${demand.place} ${part.side} ${demand.resistance_m2KW}`;
    const found = groups.get(key);
    if (found) found.parts.push(part);
    else groups.set(key, { demand, parts: [part] });
  }
  return [...groups.values()].map((each) => {
    const { place, resistance_m2KW } = each.demand;
    const { side } = each.parts[0]!;
    const words = `${place} ${side} r${toLabel(resistance_m2KW)}`.toLowerCase();
    return {
      id: `${group}-insulation-${system.id}-${words.replace(/[^a-z0-9.]+/g, '-')}`,
      group,
      title: `Insulation of ${side} ducts, ${place}`,
      ...judge(survey, system, each.parts, each.demand),
    };
  });
}

const toLabel = (resistance_m2KW: number): string =>
  Number((resistance_m2KW / toSi('resistance', 1, 'R')).toFixed(1)).toString();

function judge(
  survey: Survey,
  system: AirSystem,
  parts: readonly DuctPart[],
  demand: Demand,
): Omit<Check, 'id' | 'group' | 'title'> {
  const known = (part: DuctPart) => partKnown(survey, system.id, part.id, 'insulation');
  const meets = (part: DuctPart, limit: number) => part.insulation_m2KW >= limit * (1 - labelRounding);
  const short = parts.filter((part) => !meets(part, demand.resistance_m2KW));
  const shortAndKnown = short.filter((part) => decides(known(part)));
  const unknown = parts.filter((part) => !decides(known(part)));
  // Where sources print another value, a part between the two can not be judged.
  const conflict = demand.alternatives.find(({ resistance_m2KW }) =>
    parts.some((part) => meets(part, resistance_m2KW) !== meets(part, demand.resistance_m2KW)),
  );
  const result =
    conflict || (shortAndKnown.length === 0 && unknown.length > 0)
      ? 'cannot tell'
      : shortAndKnown.length > 0
        ? 'fail'
        : 'pass';
  const shown = result === 'fail' ? shortAndKnown : parts;
  const worst = shown.reduce((low, part) => (part.insulation_m2KW < low.insulation_m2KW ? part : low));
  const about = result === 'fail' ? shortAndKnown : result === 'cannot tell' && !conflict ? unknown : parts;
  return {
    ...atLeast(worst.insulation_m2KW, demand.resistance_m2KW),
    result,
    subject: parts.length === 1 ? parts[0]!.id : system.id,
    quantity: 'insulation',
    clause: demand.clause,
    source: demand.source,
    evidence: [
      `${namesOf(about, parts)}: ${knownText(about.map(known))}.`,
      ...demand.alternatives.map(
        (other) => `Sources disagree: R-${toLabel(other.resistance_m2KW)} by ${other.source}.`,
      ),
      ...(result === 'cannot tell' && conflict ? ['Which one holds decides; check the printed code.'] : []),
      ...(result === 'cannot tell' && !conflict ? ['Reading the label on the jacket would settle it.'] : []),
    ].join(' '),
    ...(result === 'fail' && {
      remedy: `After sealing and testing, insulate ${namesOf(shortAndKnown, parts)} to R-${toLabel(demand.resistance_m2KW)}.`,
    }),
  };
}

/** Parts by name, or all of them in a word when there are many. */
const namesOf = (some: readonly DuctPart[], all: readonly DuctPart[]): string =>
  some.length === all.length && all.length > 3
    ? `all ${all.length} parts`
    : some.map(({ name }) => name).join(', ');
