import { create } from 'zustand';

export const useQuickStart = create<{ readonly open: boolean }>(() => ({ open: false }));

export const openQuickStart = (): void => useQuickStart.setState({ open: true });

export const closeQuickStart = (): void => useQuickStart.setState({ open: false });
