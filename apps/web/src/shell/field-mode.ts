import { useDraw } from '../draw/draw-store.ts';

const remembered = 'airledger-field';

/** Keeps the page in field mode, with targets for gloved thumbs, for as long as it is switched on. */
export const followFieldMode = (): void => {
  const show = (field: boolean) => document.documentElement.classList.toggle('field', field);
  const chosen = localStorage.getItem(remembered);
  if (chosen !== null) useDraw.setState({ field: chosen === 'yes' });
  show(useDraw.getState().field);
  useDraw.subscribe(({ field }, before) => {
    if (field === before.field) return;
    localStorage.setItem(remembered, field ? 'yes' : 'no');
    show(field);
  });
};

export const switchFieldMode = (): void => useDraw.setState(({ field }) => ({ field: !field }));
