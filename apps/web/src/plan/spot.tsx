import type { ReactNode } from 'react';
import { showInHand } from '../forms/open-record.ts';
import { choosePart, chooseRoom } from '../state/actions.ts';

/** A place on the plan that can be focused and chosen; arrow keys lead from one to the next. */
export const Spot = ({
  id,
  label,
  chosen,
  reachable,
  className,
  children,
}: {
  id: `room/${string}` | `part/${string}`;
  label: string;
  chosen: boolean;
  /** Only one spot of the plan is a stop of the Tab key. */
  reachable: boolean;
  className: string;
  children: ReactNode;
}) => {
  const choose = () => {
    showInHand();
    if (id.startsWith('room/')) chooseRoom(id.slice('room/'.length));
    else choosePart(id.slice('part/'.length));
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: there is no button element inside a drawing
    <g
      role="button"
      data-spot={id}
      tabIndex={reachable ? 0 : -1}
      aria-label={label}
      aria-pressed={chosen}
      className={`spot ${className}`}
      onClick={choose}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        choose();
      }}
    >
      {children}
    </g>
  );
};
