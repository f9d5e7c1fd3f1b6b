import type { Check, Survey, UnitSystem } from '@airledger/engine';
import { checkDemand, checkFigure, checkGroups, checkTitle } from '@airledger/report/check-words';
import { nameOf } from '@airledger/report/place-names';
import { paint } from './paint.ts';
import { wrap } from './wrap.ts';

const painted: Readonly<Record<Check['result'], string>> = {
  fail: paint(['bold', 'red'], 'FAIL'),
  'cannot tell': paint('yellow', 'CANNOT TELL'),
  pass: 'pass',
  exempt: 'exempt',
};

const indent = '      ';

/** Checks as text by group, in the order given within each: what is asked, how it stands, by what, and what to do. */
export const checksText = (survey: Survey, checks: readonly Check[], units: UnitSystem): string => {
  const name = nameOf(survey);
  const groups = checkGroups
    .map(({ group, title }) => ({ title, own: checks.filter((check) => check.group === group) }))
    .filter(({ own }) => own.length > 0)
    .map(
      ({ title, own }) =>
        `${paint('bold', title)}\n\n${own.map((check) => checkText(check, name, units)).join('\n\n')}`,
    );
  const count = (result: Check['result']) => checks.filter((check) => check.result === result).length;
  return [
    paint('bold', `${survey.name} · ${survey.state}`),
    ...groups,
    `${count('fail')} fail, ${count('cannot tell')} cannot be told, ${count('pass')} pass, ${count('exempt')} exempt.`,
  ].join('\n\n');
};

const checkText = (check: Check, name: (id: string) => string, units: UnitSystem): string => {
  const figures =
    check.value === undefined || check.quantity === 'none'
      ? []
      : [
          `${checkFigure(check, 'value', units)}, ${checkDemand(check, units)}, margin ${checkFigure(check, 'margin', units)}`,
        ];
  const lines = [
    ...figures,
    `Clause: ${check.clause} (${check.source})`,
    check.evidence,
    ...(check.remedy ? [`Remedy: ${check.remedy}`] : []),
  ];
  return [
    `  ${painted[check.result]}  ${checkTitle(check, name)}`,
    ...lines.map((line) => wrap(line, indent)),
  ].join('\n');
};
