import type { Check, Survey } from '@airledger/engine';
import { failedFirst } from '@airledger/report/check-words';
import { Fragment, useState } from 'react';
import { Figure } from '../figure/figure.tsx';
import { useFormat } from '../figure/use-format.ts';
import { loadedLater } from '../shell/loaded-later.tsx';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { choosePart, chooseRoom } from '../state/actions.ts';
import { useBaseSurvey, useReading } from '../state/select.ts';
import { checkProvenance } from './check-line.tsx';
import { checkMargin, results, standingPieces } from './check-words.ts';
import { SoFar } from './so-far.tsx';
import './checks.css';

const Cautions = loadedLater(async () => (await import('../help/cautions.tsx')).Cautions);

const groups: Record<Check['group'], string> = {
  code: 'Energy code',
  specification: "This job's specification",
  safety: 'Safety',
  trade: 'Trade practice',
};

/** Everything that code, specification and practice ask, and how this house stands. */
export const ChecksArea = () => {
  const reading = useReading();
  const survey = useBaseSurvey();
  const [shown, setShown] = useState<'open' | 'all'>('open');
  if (!reading || !survey) return null;
  const open = reading.checks.filter((check) => check.result === 'fail' || check.result === 'cannot tell');
  const failed = open.filter((check) => check.result === 'fail').length;
  const checks = shown === 'all' ? reading.checks : open;
  return (
    <Scrolls className="sheet page-area" label="Checks">
      <header>
        <h2>Checks</h2>
        <span className="quiet">
          {survey.code.edition} · of {reading.checks.length}, {failed} fail and {open.length - failed} cannot
          be told yet
        </span>
        <SoFar />
        <Segmented
          label="Checks shown"
          choices={[
            { value: 'open', words: 'Open' },
            { value: 'all', words: 'All' },
          ]}
          value={shown}
          onChange={setShown}
        />
      </header>
      {(Object.keys(groups) as Check['group'][]).map((group) => (
        <CheckTable
          key={group}
          name={groups[group]}
          survey={survey}
          checks={failedFirst(checks.filter((check) => check.group === group))}
        />
      ))}
      {checks.length === 0 && <p>Everything that is asked of this house holds.</p>}
      <Cautions />
    </Scrolls>
  );
};

const CheckTable = ({ name, checks, survey }: { name: string; checks: readonly Check[]; survey: Survey }) => {
  const format = useFormat();
  if (checks.length === 0) return null;
  return (
    <table className="checks">
      <caption>{name}</caption>
      <thead>
        <tr>
          <th scope="col">Result</th>
          <th scope="col">What is asked</th>
          <th scope="col">About</th>
          <th scope="col" className="number">
            Value and limit
          </th>
          <th scope="col" className="number">
            Margin
          </th>
          <th scope="col">Clause</th>
        </tr>
      </thead>
      <tbody>
        {checks.map((check) => (
          <tr key={`${check.id} ${check.subject}`} className={check.result.replace(' ', '-')}>
            <td className="check-result">
              <span aria-hidden="true">{results[check.result].mark} </span>
              {results[check.result].words}
            </td>
            <th scope="row">{check.title}</th>
            <td>
              <Subject id={check.subject} survey={survey} />
            </td>
            <td className="number">
              <Figure from={() => checkProvenance(check, format)}>
                <Standing pieces={standingPieces(check, format)} />
              </Figure>
            </td>
            <td className="number">{checkMargin(check, format)}</td>
            <td className="quiet">{check.clause}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

/** Value and limit, each whole where they take two lines. */
const Standing = ({ pieces }: { pieces: readonly string[] }) =>
  pieces.map((piece, at) => (
    <Fragment key={piece}>
      {at > 0 && ' '}
      <span className="whole">{piece}</span>
    </Fragment>
  ));

/** What a check is about; rooms and ducts can be taken in hand from here. */
const Subject = ({ id, survey }: { id: string; survey: Survey }) => {
  const room = survey.rooms.find((each) => each.id === id);
  const part = survey.systems.flatMap((system) => system.parts).find((each) => each.id === id);
  const choose = room ? () => chooseRoom(id) : part ? () => choosePart(id) : undefined;
  const name =
    room?.name ??
    part?.name ??
    survey.systems.find((system) => system.id === id)?.name ??
    (id === 'house' ? 'House' : id);
  if (!choose) return <>{name}</>;
  return (
    <button type="button" className="link-button" onClick={choose}>
      {name}
    </button>
  );
};
