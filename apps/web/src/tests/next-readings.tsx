import type { Calibration } from '@airledger/engine/calibrate/calibration';
import type { RankedReading, ReadingGoal } from '@airledger/engine/calibrate/next-reading';
import { isWorthReading } from '@airledger/engine/calibrate/rank-readings';
import { subjectName } from '@airledger/engine/readings/subject-name';
import { burnerCaution, candidateReadings } from '@airledger/job';
import { worthWords } from '@airledger/report/calibration-words';
import { useEffect, useState } from 'react';
import { useTypedJob } from '../document/document.ts';
import { useAccount } from '../state/select.ts';
import { estimator, useFindings } from './findings-store.ts';

const setUps = ['duct tester', 'blower door', 'flow hood'] as const;
/** As many as somebody reads. */
const shown = 5;

type Wanted = 'first repair' | 'leakage' | `room ${string}`;

/** What to read next: what tells most per minute about what is wanted, updated after each reading. */
export const NextReadings = ({ calibration }: { calibration: Calibration }) => {
  const job = useTypedJob();
  const account = useAccount();
  const { asked, status } = useFindings();
  const [wanted, setWanted] = useState<Wanted>('first repair');
  const [ready, setReady] = useState<readonly string[]>([]);
  const [ranked, setRanked] = useState<readonly RankedReading[]>();
  const system = asked?.survey.systems.find(({ id }) => id === calibration.system);
  const isDone = status === 'done';
  const candidates = job && account && system ? candidateReadings(job, account, system) : [];
  const needs = JSON.stringify(account?.rooms.map(({ room, needed_m3s }) => [room, needed_m3s]));
  // biome-ignore lint/correctness/useExhaustiveDependencies: candidates follow from the calibration and the needs
  useEffect(() => {
    if (!isDone || !asked) return;
    let stillWanted = true;
    setRanked(undefined);
    const goal: ReadingGoal = wanted.startsWith('room ')
      ? { kind: 'room', room: wanted.slice(5) }
      : wanted === 'leakage'
        ? { kind: 'leakage' }
        : { kind: 'first repair', needed_m3s: Object.fromEntries(JSON.parse(needs ?? '[]')) };
    estimator()
      .next(
        { survey: asked.survey, readings: asked.readings },
        calibration,
        candidates.map(({ candidate }) => candidate),
        { goal, ready },
      )
      .then(
        (found) => stillWanted && setRanked(found),
        () => stillWanted && setRanked([]),
      );
    return () => {
      stillWanted = false;
    };
  }, [calibration, isDone, wanted, ready, needs]);
  if (!asked || !account) return null;
  const best = (ranked ?? [])
    .filter(isWorthReading)
    .slice(0, shown)
    .flatMap(({ reading, narrowing }) => {
      const found = candidates.find(({ candidate }) => candidate.id === reading);
      return found ? [{ candidate: found.candidate, narrowing }] : [];
    });
  return (
    <section aria-label="What to read next" className="next-readings">
      <h3>What to read next</h3>
      <p className="next-wanted">
        <label>
          To know{' '}
          <select
            className="tests-select"
            value={wanted}
            onChange={(event) => setWanted(event.target.value as Wanted)}
          >
            <option value="first repair">what to repair first</option>
            <option value="leakage">how much leaks beyond the envelope</option>
            {account.rooms
              .filter(({ delivered_m3s }) => delivered_m3s > 0)
              .map(({ room, name }) => (
                <option key={room} value={`room ${room}`}>
                  what {name} gets
                </option>
              ))}
          </select>
        </label>
        <span className="quiet">Standing already:</span>
        {setUps.map((name) => (
          <label key={name}>
            <input
              type="checkbox"
              checked={ready.includes(name)}
              onChange={() =>
                setReady((now) => (now.includes(name) ? now.filter((each) => each !== name) : [...now, name]))
              }
            />{' '}
            {name}
          </label>
        ))}
      </p>
      {ranked === undefined ? (
        <p className="quiet" role="status">
          Weighing what could be read …
        </p>
      ) : (
        <>
          <BurnersFirst subjects={best.map(({ candidate }) => candidate.subject)} />
          <ol>
            {best.map(({ candidate, narrowing }) => (
              <li key={candidate.id}>
                <strong>{subjectName(asked.survey, candidate.subject)}</strong>{' '}
                <span className="quiet">{worthWords(candidate, narrowing, ready)}</span>
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
};

const BurnersFirst = ({ subjects }: { subjects: Parameters<typeof burnerCaution>[0] }) => {
  const caution = burnerCaution(subjects);
  return caution ? (
    <p className="heed">
      <strong>{caution.title}.</strong> {caution.text}
    </p>
  ) : null;
};
