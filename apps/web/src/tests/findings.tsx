import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { notUsed } from '@airledger/report/calibration-words';
import { useEffect, useState } from 'react';
import { Segmented } from '../shell/segmented.tsx';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { DoubtedReadings } from './doubted-readings.tsx';
import { FindingsPlan } from './findings-plan.tsx';
import { askFindings, stopFindings, useFindings } from './findings-store.ts';
import { FoundLeaks } from './found-leaks.tsx';
import { FoundPressures } from './found-pressures.tsx';
import { FoundRuns } from './found-runs.tsx';
import { FoundTotals } from './found-totals.tsx';
import { NextReadings } from './next-readings.tsx';
import { useReadings } from './use-readings.ts';
import { WhyShort } from './why-short.tsx';

/** Time after the last change before the work begins, ms: a sheet is typed line by line. */
const calm_ms = 500;

/** What the readings say of the house: leaks and restrictions with ranges, doubted readings, what to read next. */
export const Findings = () => {
  const survey = useBaseSurvey();
  const read = useReadings();
  const units = useWorkbench((state) => state.units);
  const [chosen, setChosen] = useState<string>();
  const system = survey?.systems.find(({ id }) => id === chosen)?.id ?? survey?.systems[0]?.id;
  const readings = read?.readings;
  useEffect(() => {
    if (!survey || !readings || readings.length === 0 || system === undefined) return;
    const { asked } = useFindings.getState();
    const question = { survey, readings, system, units };
    const isSame =
      asked?.system === system &&
      asked.readings === readings &&
      asked.survey === survey &&
      asked.units === units;
    if (isSame) return;
    const timer = setTimeout(() => void askFindings(question), calm_ms);
    return () => clearTimeout(timer);
  }, [survey, readings, system, units]);
  useEffect(() => stopFindings, []);
  const { calibration } = useFindings();
  if (!survey || !readings || system === undefined) return null;
  if (readings.length === 0)
    return (
      <p className="quiet">Nothing has been read in this state yet. Begin with a sheet; two readings do.</p>
    );
  return (
    <div className="findings">
      {survey.systems.length > 1 && (
        <Segmented
          label="System"
          choices={survey.systems.map(({ id, name }) => ({ value: id, words: name }))}
          value={system}
          onChange={setChosen}
        />
      )}
      <Progress again={() => void askFindings({ survey, readings, system, units })} />
      {calibration?.system === system && <Found calibration={calibration} />}
    </div>
  );
};

const Found = ({ calibration }: { calibration: Calibration }) => (
  <>
    <DoubtedReadings calibration={calibration} />
    <NextReadings calibration={calibration} />
    <FindingsPlan calibration={calibration} />
    <FoundLeaks calibration={calibration} />
    <FoundRuns calibration={calibration} />
    <WhyShort calibration={calibration} />
    <FoundTotals calibration={calibration} />
    <FoundPressures />
    <NotUsed calibration={calibration} />
  </>
);

/** Readings that had no part in it, each with why: none is left out in silence. */
const NotUsed = ({ calibration }: { calibration: Calibration }) => {
  const { asked } = useFindings();
  const lines = asked ? notUsed(asked.survey, asked.readings, calibration) : [];
  if (lines.length === 0) return null;
  return (
    <section aria-label="Readings not used">
      <h3>Readings that had no part in this</h3>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}.</li>
        ))}
      </ul>
    </section>
  );
};

const Progress = ({ again }: { again: () => void }) => {
  const { status, share, failure, calibration, asked } = useFindings();
  if (status === 'working')
    return (
      <div className="findings-progress">
        <progress aria-label="Working out where the air goes" value={share} max={1} />
        <span role="status">
          {calibration ? 'First ranges; they are being made sure' : 'Working out where the air goes'} …
        </span>
        <button type="button" className="plain-button" onClick={stopFindings}>
          Stop
        </button>
      </div>
    );
  if (status === 'none') return null;
  return (
    <div className="findings-progress">
      <span role="status">
        {status === 'failed'
          ? `It could not be worked out: ${failure}`
          : status === 'stopped'
            ? 'Stopped before the end.'
            : `By ${asked?.readings.length} readings; ranges hold 90 %.`}
      </span>
      <button type="button" className="plain-button" onClick={again}>
        Work it out again
      </button>
    </div>
  );
};
