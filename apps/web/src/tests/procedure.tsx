import { proceduresDefer, proceduresFor, type ReadingKind } from '@airledger/job';

/** How a kind of reading is taken, step by step. Before it every caution once, whichever of the ways needs it. */
export const Procedure = ({ kind }: { kind: ReadingKind }) => {
  const procedures = proceduresFor(kind);
  const cautions = [
    ...new Map(procedures.flatMap(({ heed }) => heed.map((caution) => [caution.id, caution]))).values(),
  ];
  return (
    <div className="procedures">
      {cautions.length > 0 && (
        <ul className="heed" aria-label="Before you measure">
          {cautions.map((caution) => (
            <li key={caution.id}>
              <strong>{caution.title}.</strong> {caution.text}
            </li>
          ))}
        </ul>
      )}
      {procedures.map(({ id, title, heed, steps, source }) => (
        <details key={id}>
          <summary>
            How to: {title.charAt(0).toLowerCase()}
            {title.slice(1)}
          </summary>
          {heed.length > 0 && (
            <p className="quiet">Heed before: {heed.map((caution) => caution.title).join(' · ')}</p>
          )}
          <ol>
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
          <p className="quiet">
            {proceduresDefer} ({source})
          </p>
        </details>
      ))}
    </div>
  );
};
