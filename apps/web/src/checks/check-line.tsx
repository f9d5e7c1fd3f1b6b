import type { Check } from '@airledger/engine';
import { checkFigure } from '@airledger/report/check-words';
import { Figure } from '../figure/figure.tsx';
import type { Format } from '../figure/format.ts';
import type { Provenance } from '../figure/provenance.ts';
import { useFormat } from '../figure/use-format.ts';
import { checkMargin, checkStanding, results } from './check-words.ts';
import './checks.css';

/** One check: how it stands in words and mark, its value against its limit, its clause. */
export const CheckLine = ({ check }: { check: Check }) => {
  const format = useFormat();
  const { mark, words } = results[check.result];
  return (
    <li className={`check ${check.result.replace(' ', '-')}`}>
      <span className="check-mark" aria-hidden="true">
        {mark}
      </span>
      <span className="check-title">
        {check.title}
        <span className="unseen">: {words}</span>
      </span>
      <span className="check-standing">
        <Figure from={() => checkProvenance(check, format)}>{checkStanding(check, format)}</Figure>
        <span className="quiet"> · {check.clause}</span>
      </span>
    </li>
  );
};

/** Where the verdict of a check comes from. */
export const checkProvenance = (check: Check, format: Format): Provenance => ({
  title: check.title,
  value: checkStanding(check, format),
  formula: `${check.evidence}${check.remedy ? ` ${check.remedy}` : ''}`,
  inputs: [
    { name: 'value', value: checkFigure(check, 'value', format.units) },
    { name: 'limit', value: checkFigure(check, 'limit', format.units) },
    ...(check.margin === undefined ? [] : [{ name: 'margin', value: checkMargin(check, format) }]),
  ],
  source: `${check.clause}, ${check.source}`,
});
