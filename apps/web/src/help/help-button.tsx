import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { useResolvedJob } from '../document/document.ts';
import { defaultOf } from '../forms/default-of.ts';
import type { FieldKind } from '../forms/field-kind.ts';
import { useSmallFormat } from '../forms/use-edited-field.ts';
import { termOf } from './glossary.ts';
import './help.css';

/** What stands in while nothing is typed, and from where. */
const Usual = ({ path, kind }: { path: string; kind: FieldKind }) => {
  const job = useResolvedJob();
  const format = useSmallFormat();
  const usual = useMemo(() => job && defaultOf(job, path), [job, path]);
  if (!usual)
    return <p>{kind.required ? 'It has to be stated.' : 'Left empty, nothing stands in for it.'}</p>;
  const value =
    usual.value !== undefined && kind.kind === 'quantity' ? format(usual.value, kind.dimension) : usual.typed;
  return (
    <p>
      Left empty, it counts as {value}
      {usual.source && ` (${usual.source})`}.
    </p>
  );
};

/** What a field means, in plain words: how it is called, what it is for, how it is written. */
export const HelpButton = ({
  label,
  path,
  pattern,
  kind,
}: {
  label: string;
  path: string;
  pattern: string;
  kind: FieldKind;
}) => {
  const term = termOf(pattern);
  const [shown, setShown] = useState(false);
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (!shown) return;
    const away = (event: Event) => {
      if (event.target instanceof Node && button.current?.parentElement?.contains(event.target)) return;
      setShown(false);
    };
    document.addEventListener('pointerdown', away);
    document.addEventListener('focusin', away);
    return () => {
      document.removeEventListener('pointerdown', away);
      document.removeEventListener('focusin', away);
    };
  }, [shown]);
  if (!term && !kind.description) return null;
  return (
    <>
      <button
        ref={button}
        type="button"
        className="help-button"
        aria-label={`What is ${label}?`}
        aria-expanded={shown}
        aria-controls={id}
        onClick={() => setShown(!shown)}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || !shown) return;
          event.stopPropagation();
          setShown(false);
        }}
      >
        <span aria-hidden="true">?</span>
      </button>
      <div id={id} className="help" role="status" hidden={!shown}>
        {shown && (
          <>
            {kind.description && <p>{kind.description}</p>}
            {term && (
              <p>
                <strong>{term.term}.</strong> {term.text}
              </p>
            )}
            <Usual path={path} kind={kind} />
            {kind.examples.length > 0 && <p className="quiet">Written like {kind.examples.join(' or ')}.</p>}
          </>
        )}
      </div>
    </>
  );
};
