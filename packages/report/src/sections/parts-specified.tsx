import { type DuctPart, formatQuantity, type Section, type UnitSystem } from '@airledger/engine';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';

/** Every duct part as it is to be, with what it was where that differs. */
export const PartsSpecified = (input: HandoverInput) => {
  const { states, units } = input;
  const { survey } = handedOver(input);
  const name = nameOf(survey);
  const before = new Map(
    states[0].survey.systems.flatMap(({ id, parts }) => parts.map((part) => [`${id}/${part.id}`, part])),
  );
  return (
    <>
      <h3>Duct parts and R-values</h3>
      {survey.systems.map(({ id, name: system, parts }) => (
        <DataTable
          key={id}
          caption={`${system}: parts as specified; in brackets what was found, where it differs`}
          columns={[
            { head: 'Part' },
            { head: 'Side' },
            { head: 'Lies in' },
            { head: 'Size' },
            { head: 'Length', number: true },
            { head: 'Material' },
            { head: 'Slack of flex', number: true },
            { head: 'Insulation', number: true },
          ]}
          rows={parts.map((part) => {
            const was = before.get(`${id}/${part.id}`);
            const both = (text: (part: DuctPart) => string) => {
              const now = text(part);
              if (!was) return now;
              const then = text(was);
              return then === now ? now : `${now} (${then})`;
            };
            return [
              was ? part.name : `${part.name} (new)`,
              part.side,
              name(part.zone),
              both(({ section }) => sizeText(section, units)),
              both(({ length_m }) => formatQuantity(length_m, 'length', units)),
              both(({ material }) => material),
              both(({ flexible, slack }) => (flexible ? formatQuantity(slack, 'ratio', units) : '—')),
              both(insulationText(units)),
            ];
          })}
          note="R is the labelled value of the insulation alone. Slack is unstretched length beyond the straight, as a share of the fully extended length."
        />
      ))}
    </>
  );
};

const insulationText =
  (units: UnitSystem) =>
  ({ insulation_m2KW }: DuctPart): string =>
    insulation_m2KW === 0 ? 'bare' : formatQuantity(insulation_m2KW, 'resistance', units);

/** Inside size of a duct, as the trade writes it. */
const sizeText = (section: Section, units: UnitSystem): string => {
  const show = (size_m: number) => formatQuantity(size_m, 'size', units).replace(/\.0(?= in$)/, '');
  if (section.shape === 'round') return `${show(section.diameter_m)} round`;
  const [a, b] =
    section.shape === 'oval' ? [section.major_m, section.minor_m] : [section.width_m, section.height_m];
  return `${show(a)} × ${show(b)}${section.shape === 'oval' ? ' oval' : ''}`;
};
