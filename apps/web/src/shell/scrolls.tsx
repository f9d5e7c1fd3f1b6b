import type { ReactNode } from 'react';

/** A region that scrolls by itself, and so must be reachable by keyboard. */
export const Scrolls = ({
  label,
  className,
  children,
}: {
  label: string;
  className: string;
  children: ReactNode;
}) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys scroll it once it has the focus
  <section className={`scrolls ${className}`} tabIndex={0} aria-label={label}>
    {children}
  </section>
);
