import { useEffect, useRef } from 'react';
import { cautions, useCautions } from './caution-list.ts';
import './help.css';

/** All cautions, to be read before any work. */
export const Cautions = () => {
  const head = useRef<HTMLHeadingElement>(null);
  const wanted = useCautions((state) => state.wanted);
  useEffect(() => {
    if (!wanted) return;
    head.current?.scrollIntoView({ block: 'start' });
    head.current?.focus();
    useCautions.setState({ wanted: false });
  }, [wanted]);
  return (
    <section className="cautions" aria-labelledby="cautions-title">
      <h3 id="cautions-title" ref={head} tabIndex={-1}>
        Before any work
      </h3>
      <ul>
        {cautions.map(({ id, title, text, source }) => (
          <li key={id}>
            <strong>{title}.</strong> {text} <span className="quiet">({source})</span>
          </li>
        ))}
      </ul>
    </section>
  );
};
