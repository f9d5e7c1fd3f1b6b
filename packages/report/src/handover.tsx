import { type HandoverInput, handedOver, stateName } from './handover-input.ts';
import { Accounts } from './sections/accounts.tsx';
import { Assumptions } from './sections/assumptions.tsx';
import { Cautions } from './sections/cautions.tsx';
import { Checks } from './sections/checks.tsx';
import { Glance } from './sections/glance.tsx';
import { Method } from './sections/method.tsx';
import { Readings } from './sections/readings.tsx';
import { RoomLoads } from './sections/room-loads.tsx';
import { Specification } from './sections/specification.tsx';

const contents = [
  { id: 'glance', title: 'At a glance', Section: Glance },
  { id: 'cautions', title: 'Cautions', Section: Cautions },
  { id: 'specification', title: 'Specification', Section: Specification },
  { id: 'account', title: 'The account', Section: Accounts },
  { id: 'loads', title: 'Loads room by room', Section: RoomLoads },
  { id: 'checks', title: 'Checks', Section: Checks },
  { id: 'readings', title: 'Readings at handover', Section: Readings },
  { id: 'assumed', title: 'What is assumed', Section: Assumptions },
  { id: 'method', title: 'How the figures were made', Section: Method },
] as const;

/** The handover: the document for the one who builds, the one who checks and the owner. */
export const Handover = (input: HandoverInput) => (
  <main>
    <Title {...input} />
    <nav aria-label="Contents">
      <ol>
        {contents.map(({ id, title }) => (
          <li key={id}>
            <a href={`#${id}`}>{title}</a>
          </li>
        ))}
      </ol>
    </nav>
    {contents.map(({ id, Section }) => (
      <Section key={id} {...input} />
    ))}
  </main>
);

const Title = (input: HandoverInput) => {
  const { job, states } = input;
  const { survey } = handedOver(input);
  const { address, client, preparedBy, company, date, notes } = job.about ?? {};
  const facts = [
    ['Address', address === job.name ? undefined : address],
    ['Place', survey.site.place],
    ['For', client],
    ['By', [preparedBy, company].filter(Boolean).join(', ')],
    ['Survey of', date],
    ['States', states.map(({ id }) => stateName(job, id)).join(', ')],
    ['Systems', survey.systems.map(({ name, equipment }) => `${name} (${equipment.kind})`).join(', ')],
    ['Energy code', survey.code.edition],
  ].filter((fact): fact is [string, string] => Boolean(fact[1]));
  return (
    <header>
      <p className="kind">Handover of ducts and airflow</p>
      <h1>{job.name}</h1>
      <dl>
        {facts.map(([term, text]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {notes && <p>{notes}</p>}
    </header>
  );
};
