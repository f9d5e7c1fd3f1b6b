import { lazy, Suspense } from 'react';
import { type PanelName, usePanel } from './panel-store.ts';

/** Panels are loaded when they are asked for. */
const panels: Record<PanelName, React.ComponentType> = {
  jobs: lazy(async () => ({ default: (await import('../jobs/jobs-panel.tsx')).JobsPanel })),
  history: lazy(async () => ({ default: (await import('../history/history-panel.tsx')).HistoryPanel })),
  states: lazy(async () => ({ default: (await import('../history/states-panel.tsx')).StatesPanel })),
  'new-house': lazy(async () => ({
    default: (await import('../quick-start/quick-start-panel.tsx')).QuickStartPanel,
  })),
  words: lazy(async () => ({ default: (await import('../help/words-panel.tsx')).WordsPanel })),
  clashes: lazy(async () => ({ default: (await import('../keeping/clashes-panel.tsx')).ClashesPanel })),
};

/** The panel that was asked for. */
export const Panels = () => {
  const shown = usePanel((state) => state.shown);
  if (!shown) return null;
  const Panel = panels[shown];
  return (
    <Suspense>
      <Panel />
    </Suspense>
  );
};
