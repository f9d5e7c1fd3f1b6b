import type { Calibration, LeakFinding, LeakGroupFinding } from '@airledger/engine/calibrate/calibration';
import {
  alikeWords,
  knowledgeWords,
  leakGroupName,
  leakPlaceName,
} from '@airledger/report/calibration-words';
import { rangeText } from '@airledger/report/range-text';
import { Fragment, useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { useFindings } from './findings-store.ts';
import { RangeBar } from './range-bar.tsx';

/** Leaks with their ranges, by groups that readings can tell apart, then place by place. */
export const FoundLeaks = ({ calibration }: { calibration: Calibration }) => {
  const { asked, before } = useFindings();
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  if (!asked) return null;
  const { survey } = asked;
  const groups = calibration.groups.toSorted((a, b) => b.flow25_m3s.middle - a.flow25_m3s.middle);
  const most = Math.max(...groups.map(({ flow25_m3s }) => flow25_m3s.high));
  const toggle = (id: string) =>
    setOpen((now) => {
      const next = new Set(now);
      if (!next.delete(id)) next.add(id);
      return next;
    });
  return (
    <section aria-label="Leaks found">
      <div className="wide-table">
        <table className="found">
          <caption>Leaks, at 25 Pa and while the fan runs</caption>
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">
                <span className="unseen">Range</span>
              </th>
              <th scope="col" className="number">
                At 25 Pa
              </th>
              <th scope="col" className="number">
                Beyond the envelope, running
              </th>
              <th scope="col" className="number">
                A defect
              </th>
              <th scope="col">Known</th>
            </tr>
          </thead>
          <tbody>
            {groups.map((group) => {
              const places = calibration.leaks.filter(({ place }) => group.spots.includes(place));
              const isOpen = open.has(group.id);
              return (
                <Fragment key={group.id}>
                  <LeakRow
                    name={leakGroupName(survey, group)}
                    finding={group}
                    before={before?.groups.find(({ id }) => id === group.id)}
                    most={most}
                    {...(places.length > 1 && { toggle: () => toggle(group.id), isOpen })}
                  />
                  {isOpen &&
                    places.map((leak) => (
                      <LeakRow
                        key={leak.place}
                        name={leakPlaceName(survey, leak)}
                        finding={leak}
                        before={before?.leaks.find(({ place }) => place === leak.place)}
                        most={most}
                        isPlace
                      />
                    ))}
                </Fragment>
              );
            })}
          </tbody>
        </table>
      </div>
      {calibration.alike.map((alike) => (
        <p key={alike.places.join()} className="quiet">
          {alikeWords(survey, alike)}
        </p>
      ))}
    </section>
  );
};

type Finding = Pick<
  LeakGroupFinding | LeakFinding,
  'flow25_m3s' | 'outdoors_m3s' | 'knowledge' | 'defectProbability'
>;

const LeakRow = ({
  name,
  finding,
  before,
  most,
  toggle,
  isOpen,
  isPlace,
}: {
  name: string;
  finding: Finding;
  before?: Finding;
  most: number;
  toggle?: () => void;
  isOpen?: boolean;
  isPlace?: boolean;
}) => {
  const format = useFormat();
  const { flow25_m3s, outdoors_m3s, knowledge, defectProbability } = finding;
  return (
    <tr className={knowledge === 'not measured' ? 'unmeasured' : undefined}>
      <th scope="row" className={isPlace ? 'found-place' : undefined}>
        {toggle ? (
          <button type="button" className="row-toggle" aria-expanded={isOpen} onClick={toggle}>
            {name}
          </button>
        ) : (
          name
        )}
      </th>
      <td>
        <RangeBar range={flow25_m3s} before={before?.flow25_m3s} most={most} />
      </td>
      <td className="number">
        {rangeText(flow25_m3s, 'airflow', format.units)}
        {before && (
          <span className="quiet was"> was {rangeText(before.flow25_m3s, 'airflow', format.units)}</span>
        )}
      </td>
      <td className="number">{outdoors_m3s ? rangeText(outdoors_m3s, 'airflow', format.units) : 'inside'}</td>
      <td className="number">{format.full(defectProbability, 'ratio')}</td>
      <td>{knowledgeWords[knowledge]}</td>
    </tr>
  );
};
