import { useEffect, useRef } from 'react';
import { useWorkbench } from '../state/store.ts';
import { closeQuestion, type Question, useQuestion } from './where-from-store.ts';
import './figure.css';

/** The answer to "where from?": formula, inputs, source and range, beside the figure that asked. */
export const WhereFrom = () => {
  const question = useQuestion((state) => state.question);
  // An answer holds for the account that was asked; when that changes, the question has to be put again.
  useEffect(
    () =>
      useWorkbench.subscribe(
        ({ readings, units, mode, viewed }) => [readings, units, mode, viewed],
        closeQuestion,
        { equalityFn: (a, b) => a.every((each, i) => each === b[i]) },
      ),
    [],
  );
  return question ? (
    <Answer key={question.provenance.title + question.provenance.value} question={question} />
  ) : null;
};

const Answer = ({ question: { provenance, asker } }: { question: Question }) => {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current!;
    place(dialog, asker);
    dialog.focus();
    const outside = (event: PointerEvent) => {
      if (!dialog.contains(event.target as Node)) closeQuestion();
    };
    document.addEventListener('pointerdown', outside);
    return () => document.removeEventListener('pointerdown', outside);
  }, [asker]);
  const close = () => {
    closeQuestion();
    asker.focus();
  };
  return (
    <dialog
      ref={box}
      open
      className="where-from"
      tabIndex={-1}
      aria-label={`Where from: ${provenance.title}`}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      <div className="where-from-head">
        <h3>{provenance.title}</h3>
        <button type="button" className="close" aria-label="Close" onClick={close}>
          ×
        </button>
      </div>
      <p className="where-from-value">
        {provenance.value}
        {provenance.range && <span className="quiet"> 10–90 %: {provenance.range}</span>}
      </p>
      <p className="formula">{provenance.formula}</p>
      {provenance.inputs.length > 0 && (
        <table>
          <caption className="unseen">Inputs</caption>
          <tbody>
            {provenance.inputs.map((input) => (
              <tr key={input.name + input.value}>
                <th scope="row">{input.name}</th>
                <td className="number">{input.value}</td>
                {input.howKnown && <td className="quiet">{input.howKnown}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="quiet">Source: {provenance.source}</p>
    </dialog>
  );
};

/** Below its figure when there is room, above otherwise, never over the edge of the page. */
const place = (dialog: HTMLElement, asker: HTMLElement): void => {
  const at = asker.getBoundingClientRect();
  const { offsetWidth: width, offsetHeight: height } = dialog;
  const below = at.bottom + 6;
  const top = below + height < window.innerHeight - 8 ? below : Math.max(8, at.top - height - 6);
  dialog.style.left = `${Math.max(8, Math.min(at.right - width, window.innerWidth - width - 8))}px`;
  dialog.style.top = `${top}px`;
};
