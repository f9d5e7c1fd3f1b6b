import type { Account, AirSystem, DuctPart, Survey } from '@airledger/engine';
import type { Job, JobPart } from '../schema/job-schema.ts';
import type { Proposal } from './candidate.ts';
import { feet, isHidden, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';
import { sealParts } from './seal-ducts.ts';

/** Slack that a good hand leaves in flex that is pulled, and in flex that is cut to length (assumed). */
const pulled = { value: '6 % ± 2', known: 'estimated', note: 'pulled and strapped' } as const;
const cut = { value: '4 % ± 1.5', known: 'estimated', note: 'cut to length' } as const;
/** More slack than this is worth pulling out (assumed). */
const slackAlone = 0.1;
const slackTogether = 0.07;
/** So much is better cut out than pulled (assumed). */
const muchSlack = 0.15;

const isSlack = (part: DuctPart, least: number): boolean => part.flexible && part.slack > least;

const setSlack = (house: Job, system: string, ids: readonly string[], slack: JobPart['slack']): Job =>
  withChangedParts(house, system, ids, (part) => ({ ...part, slack }));

/** A run as good as new: straight, R-8, its ends sealed. */
export const renewed = (
  house: Job,
  system: string,
  id: string,
  change: (part: JobPart) => JobPart = (part) => part,
): Job => {
  const sealed = sealParts(house, system, [id], 'mastic', ['takeoff', 'joint']);
  return withChangedParts(sealed, system, [id], (part) => {
    const { jacket: _, roughness: __, ...rest } = part;
    return change({ ...rest, material: 'flex', slack: cut, insulation: 'R-8' });
  });
};

/** The worst runs one by one, pulled, cut or replaced; the rest of the slack ones together. */
export const proposeFlex = (survey: Survey, accounts: readonly Account[]): readonly Proposal[] =>
  survey.systems.flatMap((system) => {
    const slack = system.parts.filter((part) => isSlack(part, slackTogether) && !isHidden(survey, part));
    const worst = slack.filter((part) => isSlack(part, slackAlone) && isShort(accounts, part));
    const others = slack.filter((part) => !worst.includes(part));
    return [...worst.flatMap((part) => byItself(survey, system, part)), ...together(survey, system, others)];
  });

/** Its room gets less than a share of the air that it needs in a season. */
export const isShort = (accounts: readonly Account[], part: DuctPart, share = 0.9): boolean =>
  part.side === 'return' ||
  part.terminal === undefined ||
  accounts.some(({ rooms }) =>
    rooms.some(
      ({ room, needed_m3s, delivered_m3s }) =>
        room === part.terminal!.room && delivered_m3s < share * needed_m3s,
    ),
  );

const byItself = (survey: Survey, system: AirSystem, part: DuctPart): Proposal[] => {
  const common = {
    place: part.id,
    where: [partPath(system.id, part.id)],
    work: workAt(survey, [{ zone: part.zone, quantity: feet(part.length_m) }]),
    claims: [`run/${system.id}/${part.id}`],
  };
  return [
    {
      ...common,
      repair: 'straighten-flex',
      name: `Pull ${part.name} straight`,
      apply: (house) => setSlack(house, system.id, [part.id], pulled),
    },
    ...(part.slack > muchSlack
      ? [
          {
            ...common,
            repair: 'shorten-flex',
            name: `Cut ${part.name} to length`,
            apply: (house: Job) => setSlack(house, system.id, [part.id], cut),
          },
          {
            ...common,
            repair: 'replace-flex',
            name: `Replace ${part.name} with new flex`,
            apply: (house: Job) => renewed(house, system.id, part.id),
          },
        ]
      : []),
  ];
};

const together = (survey: Survey, system: AirSystem, parts: readonly DuctPart[]): Proposal[] => {
  if (parts.length === 0) return [];
  const ids = parts.map(({ id }) => id);
  return [
    {
      repair: 'straighten-flex',
      place: `${system.id}-others`,
      name: `Pull the ${parts.length === 1 ? 'other slack run' : `${parts.length} other slack runs`} straight${ofSystem(survey, system)}`,
      where: ids.map((id) => partPath(system.id, id)),
      work: workAt(
        survey,
        parts.map(({ zone, length_m }) => ({ zone, quantity: feet(length_m) })),
      ),
      claims: [],
      apply: (house) => setSlack(house, system.id, ids, pulled),
    },
  ];
};
