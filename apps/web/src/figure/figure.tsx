import type { ReactNode } from 'react';
import type { Provenance } from './provenance.ts';
import { ask } from './where-from-store.ts';
import './figure.css';

/** A figure that can be asked where it comes from. */
export const Figure = ({ children, from }: { children: ReactNode; from: () => Provenance }) => (
  <button
    type="button"
    className="figure"
    title="Where from?"
    aria-haspopup="dialog"
    onClick={(event) => ask(from(), event.currentTarget)}
  >
    {children}
  </button>
);
