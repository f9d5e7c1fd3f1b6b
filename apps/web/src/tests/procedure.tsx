import { proceduresDefer, proceduresFor, type ReadingKind } from '@airledger/job';
import { Fragment } from 'react';

/** How a kind of reading is taken, step by step, cautions first. */
export const Procedure = ({ kind }: { kind: ReadingKind }) => (
  <div className="procedures">
    {proceduresFor(kind).map(({ id, title, heed, steps, source }) => (
      <Fragment key={id}>
        {heed.length > 0 && (
          <ul className="heed" aria-label={`Before ${title}`}>
            {heed.map((caution) => (
              <li key={caution.id}>
                <strong>{caution.title}.</strong> {caution.text}
              </li>
            ))}
          </ul>
        )}
        <details>
          <summary>
            How to: {title.charAt(0).toLowerCase()}
            {title.slice(1)}
          </summary>
          <ol>
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
          <p className="quiet">
            {proceduresDefer} ({source})
          </p>
        </details>
      </Fragment>
    ))}
  </div>
);
