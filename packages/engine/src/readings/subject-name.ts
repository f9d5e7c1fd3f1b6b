import type { Survey } from '../survey/types.ts';
import type { ReadingSubject } from './types.ts';

type Named = { readonly id: string; readonly name: string };

/** What was read and where, with the names of the house: "static pressure in the supply plenum of Main system". */
export const subjectName = (survey: Survey, subject: ReadingSubject): string => {
  const parts = survey.systems.flatMap((system) => system.parts);
  const terminals = parts.flatMap(({ terminal }) => terminal ?? []);
  const name = (all: readonly Named[], id: string) => all.find((one) => one.id === id)?.name ?? id;
  const spaces = [...survey.rooms, ...survey.zones];
  switch (subject.kind) {
    case 'duct leakage':
      return `${subject.to === 'total' ? 'total duct leakage' : 'duct leakage to outdoors'} of ${name(survey.systems, subject.system)}`;
    case 'house leakage':
      return 'leakage of the house';
    case 'system static':
      return `static pressure ${subject.place === 'before coil' || subject.place === 'after filter' ? subject.place : `in the ${subject.place}`} of ${name(survey.systems, subject.system)}`;
    case 'part static':
      return `static pressure at the ${subject.at} of ${name(parts, subject.part)}`;
    case 'pressure pan':
      return `pressure pan on ${name(terminals, subject.terminal)}`;
    case 'fan flow':
      return `fan flow of ${name(survey.systems, subject.system)}`;
    case 'terminal flow':
      return `flow of ${name(terminals, subject.terminal)}`;
    case 'room pressure':
      return `pressure of ${name(spaces, subject.room)} to ${subject.to === 'outdoors' ? 'outdoors' : name(spaces, subject.to)}`;
    case 'terminal temperature':
      return `air temperature at ${name(terminals, subject.terminal)}`;
    case 'system temperature':
      return `air temperature in the ${subject.place} of ${name(survey.systems, subject.system)}`;
    case 'space temperature':
      return `air temperature of ${name(spaces, subject.space)}`;
    case 'fan power':
      return `power of the fan of ${name(survey.systems, subject.system)}`;
  }
};

/** Dimension of what a subject's value is. */
export const subjectDimension = ({ kind }: ReadingSubject) => {
  switch (kind) {
    case 'duct leakage':
    case 'house leakage':
    case 'fan flow':
    case 'terminal flow':
      return 'airflow';
    case 'system static':
    case 'part static':
    case 'pressure pan':
    case 'room pressure':
      return 'pressure';
    case 'terminal temperature':
    case 'system temperature':
    case 'space temperature':
      return 'temperature';
    case 'fan power':
      return 'electricPower';
  }
};
