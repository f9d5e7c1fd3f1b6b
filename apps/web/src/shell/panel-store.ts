import { create } from 'zustand';

export type PanelName = 'jobs' | 'history' | 'states' | 'clashes' | 'new-house' | 'words';

/** Which panel lies over the page, if any. */
export const usePanel = create<{ readonly shown?: PanelName }>()(() => ({}));

export const showPanel = (shown: PanelName): void => usePanel.setState({ shown });

export const closePanel = (): void => usePanel.setState({ shown: undefined });
