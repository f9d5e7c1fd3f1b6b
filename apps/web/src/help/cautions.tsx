import { cautions } from './caution-list.ts';
import './help.css';

/** All cautions, to be read before any work. */
export const Cautions = () => (
  <section className="cautions" aria-labelledby="cautions-title">
    <h3 id="cautions-title">Before any work</h3>
    <ul>
      {cautions.map(({ id, title, text, source }) => (
        <li key={id}>
          <strong>{title}.</strong> {text} <span className="quiet">({source})</span>
        </li>
      ))}
    </ul>
  </section>
);
