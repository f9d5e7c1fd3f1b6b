import type { Account } from '@airledger/engine';
import { failedFirst } from '@airledger/report/check-words';
import { CheckLine } from '../checks/check-line.tsx';
import { SoFar } from '../checks/so-far.tsx';
import { showArea } from '../state/actions.ts';
import { useReading } from '../state/select.ts';
import { runsOf } from './room-provenance.ts';

const most = 7;

/** Checks that touch a room: itself, its runs, the systems that serve it; the failing ones first. */
export const RoomChecks = ({ account, room }: { account: Account; room: string }) => {
  const reading = useReading();
  if (!reading) return null;
  const runs = runsOf(account, room).map((part) => part.id);
  const systems = account.survey.systems
    .filter((system) => system.parts.some((part) => runs.includes(part.id)))
    .map((system) => system.id);
  const about = [room, ...runs, ...systems];
  const checks = failedFirst(reading.checks.filter((check) => about.includes(check.subject)));
  return (
    <section className="card-part" aria-label="Checks of this room">
      <div className="card-head">
        <h3>Checks</h3>
        <SoFar />
        <button type="button" className="link-button" onClick={() => showArea('checks')}>
          all {reading.checks.length}
        </button>
      </div>
      <ul className="check-list">
        {checks.slice(0, most).map((check) => (
          <CheckLine key={`${check.id} ${check.subject}`} check={check} />
        ))}
      </ul>
    </section>
  );
};
