import { loadedLater } from './loaded-later.tsx';
import { Panel } from './panel.tsx';
import { type PanelName, usePanel } from './panel-store.ts';

const inPanel = (title: string, load: () => Promise<React.ComponentType>) =>
  loadedLater(load, (words) => <Panel title={title}>{words}</Panel>);

/** Panels are loaded when they are asked for. */
const panels: Record<PanelName, React.ComponentType> = {
  jobs: inPanel('Jobs', async () => (await import('../jobs/jobs-panel.tsx')).JobsPanel),
  history: inPanel('Change history', async () => (await import('../history/history-panel.tsx')).HistoryPanel),
  states: inPanel(
    'States of the house',
    async () => (await import('../history/states-panel.tsx')).StatesPanel,
  ),
  'new-house': inPanel(
    'New house',
    async () => (await import('../quick-start/quick-start-panel.tsx')).QuickStartPanel,
  ),
  words: inPanel('Words in plain language', async () => (await import('../help/words-panel.tsx')).WordsPanel),
  clashes: inPanel(
    'Changed in two places',
    async () => (await import('../keeping/clashes-panel.tsx')).ClashesPanel,
  ),
};

/** The panel that was asked for. */
export const Panels = () => {
  const shown = usePanel((state) => state.shown);
  if (!shown) return null;
  const Shown = panels[shown];
  return <Shown />;
};
