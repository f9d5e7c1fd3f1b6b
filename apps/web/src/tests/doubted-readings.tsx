import type { Calibration } from '@airledger/engine/calibrate/calibration';
import { doubtQuestion } from '@airledger/report/calibration-words';
import { useFormat } from '../figure/use-format.ts';
import { useFindings } from './findings-store.ts';

/** Readings that all others contradict, each as a question with what it may be. */
export const DoubtedReadings = ({ calibration }: { calibration: Calibration }) => {
  const { asked } = useFindings();
  const { units } = useFormat();
  if (!asked || calibration.doubts.length === 0) return null;
  return (
    <section className="questions" aria-label="Doubted readings">
      {calibration.doubts.map((doubt) => {
        const reading = asked.readings.find(({ id }) => id === doubt.reading);
        if (!reading) return null;
        const { title, text, mayBe, remedy } = doubtQuestion(asked.survey, reading, doubt, units);
        return (
          <article key={doubt.reading} className="question">
            <h3>{title}</h3>
            <p>{text}</p>
            {mayBe.length > 0 && (
              <>
                <p>It may be</p>
                <ul>
                  {mayBe.map((words) => (
                    <li key={words}>{words}</li>
                  ))}
                </ul>
              </>
            )}
            <p>{remedy}</p>
          </article>
        );
      })}
    </section>
  );
};
