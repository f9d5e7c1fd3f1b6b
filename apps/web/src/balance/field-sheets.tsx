import type { DamperSetting, FieldSheet, Mode, Survey } from '@airledger/engine';
import { fieldSheetSteps } from '@airledger/report/field-sheet-words';
import { nameOf } from '@airledger/report/place-names';
import { useFormat } from '../figure/use-format.ts';
import { useFieldSheets } from './use-balance.ts';

/** The proportional method step by step, with what the hood should read after each turn. */
export const FieldSheets = ({
  survey,
  mode,
  settings,
}: {
  survey: Survey;
  mode: Mode;
  settings: readonly DamperSetting[];
}) => {
  const sheets = useFieldSheets(survey, mode, settings);
  if (!sheets) return <p className="quiet">Working out what each reading should be …</p>;
  return sheets.map((sheet) => (
    <Sheet key={sheet.system} survey={survey} mode={mode} sheet={sheet} settings={settings} />
  ));
};

const Sheet = ({
  survey,
  mode,
  sheet: { system, key, first, steps },
  settings,
}: {
  survey: Survey;
  mode: Mode;
  sheet: FieldSheet;
  settings: readonly DamperSetting[];
}) => {
  const format = useFormat();
  const name = nameOf(survey);
  const roomOf = (terminal: string) => name(settings.find((one) => one.terminal === terminal)!.room);
  const openAt = (terminal: string) => first.find((one) => one.terminal === terminal)!;
  const flow = (value_m3s: number) => format.bare(value_m3s, 'airflow', 0);
  return (
    <section className="field-sheet" aria-label={`Field sheet, ${name(system)}`}>
      <h3>
        Field sheet, {name(system)}, fan in {mode}
      </h3>
      <ol className="quiet">
        {fieldSheetSteps(roomOf(key), format.full(openAt(key).predicted_m3s, 'airflow', 0)).map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <div className="wide-table">
        <table>
          <thead>
            <tr>
              <th scope="col">Room</th>
              <th scope="col">Damper in</th>
              <th scope="col" className="number">
                Aim, {format.unit('airflow')}
              </th>
              <th scope="col" className="number">
                First reads
              </th>
              <th scope="col" className="number">
                Turn to, open
              </th>
              <th scope="col" className="number">
                Should read
              </th>
              <th scope="col" className="number">
                Key reads
              </th>
            </tr>
          </thead>
          <tbody>
            {steps.map(({ terminal, part, to, predicted_m3s, keyPredicted_m3s }) => {
              const open = openAt(terminal);
              return (
                <tr key={terminal}>
                  <th scope="row">{roomOf(terminal)}</th>
                  <td>{name(part)}</td>
                  <td className="number">{flow(open.target_m3s)}</td>
                  <td className="number">{flow(open.predicted_m3s)}</td>
                  <td className="number">{terminal === key ? 'key' : format.full(to, 'ratio')}</td>
                  <td className="number">{flow(predicted_m3s)}</td>
                  <td className="number">{flow(keyPredicted_m3s)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
};
