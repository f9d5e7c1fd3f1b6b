import type { Check } from '@airledger/engine';
import { checkDemand, checkFigure, checkGroups, checkTitle, failedFirst } from '../check-words.ts';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver, stateName } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';

const resultWords: Readonly<Record<Check['result'], string>> = {
  fail: 'Fails',
  'cannot tell': 'Cannot tell',
  pass: 'Passes',
  exempt: 'Exempt',
};

/** Rules with value, limit and margin, failed first; then why, and what to do about those that do not pass. */
export const Checks = (input: HandoverInput) => {
  const { job, states, units } = input;
  const { checks, survey, id } = handedOver(input);
  const before = states.length > 1 ? states[0] : undefined;
  const name = nameOf(survey);
  const count = (result: Check['result']) => checks.filter((check) => check.result === result).length;
  const title = (check: Check) => checkTitle(check, name);
  const open = failedFirst(checks).filter(({ result }) => result === 'fail' || result === 'cannot tell');
  return (
    <section>
      <h2 id="checks">Checks</h2>
      <p>
        {stateName(job, id)}: {count('fail')} fail, {count('cannot tell')} cannot be told yet, {count('pass')}{' '}
        pass, {count('exempt')} exempt. A check decides only by what is known: a default or an assumption
        never passes it.
      </p>
      {checkGroups.map(({ group, title: groupTitle }) => {
        const own = failedFirst(checks.filter((check) => check.group === group));
        if (own.length === 0) return null;
        return (
          <DataTable
            key={group}
            caption={groupTitle}
            columns={[
              { head: 'Check', width: 25 },
              { head: 'Asked', width: 13 },
              ...(before ? [{ head: stateName(job, before.id), width: 12 }] : []),
              { head: stateName(job, id), width: 12 },
              { head: 'Margin', width: 11 },
              { head: 'Clause and source' },
            ]}
            rows={own.map((check) => [
              title(check),
              checkDemand(check, units),
              ...(before ? [standing(before.checks.find((one) => one.id === check.id))] : []),
              standing(check),
              checkFigure(check, 'margin', units),
              check.title.startsWith(check.clause) ? check.source : `${check.clause} (${check.source})`,
            ])}
          />
        );

        function standing(check: Check | undefined) {
          if (!check) return '—';
          const value = checkFigure(check, 'value', units);
          return (
            <span className={check.result === 'fail' ? 'fails' : undefined}>
              {resultWords[check.result]}
              {value === '—' ? '' : `, ${value}`}
            </span>
          );
        }
      })}
      {open.length > 0 && (
        <>
          <h3>What is still open</h3>
          <ul>
            {open.map((check) => (
              <li key={check.id}>
                <strong>
                  {resultWords[check.result]}: {title(check)}.
                </strong>{' '}
                {check.evidence} {check.remedy}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
};
