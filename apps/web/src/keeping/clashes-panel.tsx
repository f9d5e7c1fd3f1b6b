import type { MergeClash } from '@airledger/job';
import { useTypedJob } from '../document/document.ts';
import { Panel } from '../shell/panel.tsx';
import { clashPlace, clashValue } from './clash-words.ts';
import { useKeeping } from './keeping-store.ts';
import { chooseSide } from './settle-clashes.ts';

/** Fields that two hands changed differently: both values, and which one is to hold. */
export const ClashesPanel = () => {
  const clashes = useKeeping((state) => state.clashes);
  const trouble = useKeeping((state) => state.trouble);
  return (
    <Panel title="Changed in two places">
      <p className="quiet">
        Someone else changed the same. Choose what is to hold; both stay in the change history.
      </p>
      {trouble && <p role="alert">{trouble}</p>}
      {clashes.length === 0 && <p role="status">All is settled.</p>}
      <ul className="panel-list">
        {clashes.map((clash) => (
          <Clash key={clash.path} clash={clash} />
        ))}
      </ul>
    </Panel>
  );
};

const Clash = ({ clash }: { clash: MergeClash }) => {
  const typed = useTypedJob();
  const place = clashPlace(clash, typed);
  const sides = [
    { side: 'mine', words: 'Mine' },
    { side: 'theirs', words: 'Theirs' },
  ] as const;
  return (
    <li>
      <strong className="grows">{place}</strong>
      {sides.map(({ side, words }) => (
        <button
          key={side}
          type="button"
          className="plain-button"
          aria-label={`${words} for ${place}: ${clashValue(clash[side])}`}
          onClick={() => void chooseSide(clash, side)}
        >
          {words}: {clashValue(clash[side])}
        </button>
      ))}
    </li>
  );
};
