/** Gives the drawing board the focus, so that its keys work at once. */
export const toBoard = (): void =>
  document.querySelector<SVGSVGElement>('.canvas svg')?.focus({ preventScroll: true });
