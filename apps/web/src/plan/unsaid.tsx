import type { ReactNode } from 'react';

/** Part of a drawing whose content the names of its buttons already say. */
export const Unsaid = ({ className, children }: { className: string; children: ReactNode }) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes cannot take the focus
  <g className={className} aria-hidden="true">
    {children}
  </g>
);
