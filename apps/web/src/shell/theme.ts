import { type Theme, useWorkbench } from '../state/store.ts';

const remembered = 'airledger-theme';
const dark = window.matchMedia('(prefers-color-scheme: dark)');

/** Shows the theme that was chosen last, else the one that the machine prefers, and keeps to it. */
export const followTheme = (): void => {
  const chosen = localStorage.getItem(remembered);
  useWorkbench.setState({ theme: chosen === 'dark' || chosen === 'light' ? chosen : preferred() });
  dark.addEventListener('change', () => {
    if (localStorage.getItem(remembered) === null) useWorkbench.setState({ theme: preferred() });
  });
  const show = (theme: Theme) => {
    document.documentElement.dataset.theme = theme;
  };
  show(useWorkbench.getState().theme);
  useWorkbench.subscribe((state) => state.theme, show);
};

const preferred = (): Theme => (dark.matches ? 'dark' : 'light');

export const chooseTheme = (theme: Theme): void => {
  localStorage.setItem(remembered, theme);
  useWorkbench.setState({ theme });
};
