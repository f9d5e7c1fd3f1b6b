import type { AirSystem, DuctPart, Survey } from '../survey/types.ts';
import type { CodeEdition } from './code-edition.ts';
import { decides, partKnown } from './known.ts';
import type { Check } from './types.ts';

/** Whether building cavities (joist bays, stud spaces) serve as ducts where the code forbids it. */
export function buildingCavity(survey: Survey, system: AirSystem, edition: CodeEdition): readonly Check[] {
  const cavities = system.parts.filter((part) => part.buildingCavity);
  if (cavities.length > 0) return cavities.map((part) => judge(system, part, edition));
  const { clause, source } = edition.cavities[0]!;
  const unknown = system.parts.filter((part) => !decides(partKnown(survey, system.id, part.id, 'material')));
  return [
    {
      ...common(clause, source, edition),
      id: `code-cavity-${system.id}`,
      subject: system.id,
      result: unknown.length > 0 ? 'cannot tell' : 'pass',
      evidence:
        unknown.length > 0
          ? `What ${unknown.map(({ name }) => name).join(', ')} is made of is not known; looking would settle it.`
          : 'No part is surveyed as a building cavity.',
    },
  ];
}

function judge(system: AirSystem, part: DuctPart, edition: CodeEdition): Check {
  const row = edition.cavities.find(({ side }) => side === 'any' || side === part.side)!;
  return {
    ...common(row.clause, row.source, edition),
    id: `code-cavity-${system.id}-${part.id}`,
    subject: part.id,
    result: row.allowed ? 'pass' : 'fail',
    evidence: `${part.name} is surveyed as a building cavity; this edition ${row.allowed ? 'still allows it on this side' : 'forbids it'}.`,
    remedy: row.allowed
      ? 'A cavity leaks much more than duct: line it when it is opened.'
      : `Line ${part.name} with real duct.`,
  };
}

const common = (clause: string, source: string, edition: CodeEdition) =>
  ({
    group: 'code',
    title: 'Building cavities used as ducts',
    quantity: 'none',
    sense: 'yes or no',
    clause: `${edition.edition} ${clause}`,
    source,
  }) as const;
