import { useEffect } from 'react';
import { useSelection } from '../draw/selection.ts';
import { CautionWhileSealing } from '../help/sealing-caution.tsx';
import { RoomCard } from '../room/room-card.tsx';
import { loadedLater } from '../shell/loaded-later.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { type SideTab, showTab, useSide } from './open-record.ts';
import './side-panel.css';

const Details = loadedLater(async () => (await import('./details.tsx')).Details);
const Guidance = loadedLater(async () => (await import('../guidance/guidance-panel.tsx')).GuidancePanel);

const tabs: readonly { readonly value: SideTab; readonly words: string }[] = [
  { value: 'room', words: 'Room' },
  { value: 'details', words: 'Details' },
  { value: 'measure', words: 'What to measure' },
];

/** Beside the work: the room in hand, the details of what is selected, and what is worth measuring next. */
export const SidePanel = () => {
  const tab = useSide((state) => state.tab);
  const selection = useSelection();
  // What is selected on the drawing comes before a record that was opened by name; rooms and ducts have a card too.
  useEffect(() => {
    const { field, tab: shown } = useSide.getState();
    if (selection.length === 0 || field !== undefined) return;
    const hasCard = ['room', 'part'].includes(selection.at(-1)!.kind);
    useSide.setState({ record: undefined, tab: hasCard ? shown : 'details' });
  }, [selection]);
  return (
    <aside className="side" aria-label="In hand">
      <Segmented label="In hand" choices={tabs} value={tab} onChange={showTab} />
      <CautionWhileSealing />
      {tab === 'room' ? <RoomCard /> : tab === 'details' ? <Details /> : <Guidance />}
    </aside>
  );
};
