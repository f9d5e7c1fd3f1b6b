import { adoptTyped } from '../state/adopt-typed.ts';
import { useWorkbench } from '../state/store.ts';
import { patientEngine } from '../worker/engine-client.ts';

/** Opens the handover of what is in view in a page of its own, ready to print. */
export const printHandover = async (): Promise<void> => {
  const { job, viewed, compared, pair, units } = useWorkbench.getState();
  if (!job) return;
  // The page is opened before the work is done, while the browser still knows that the user asked for it.
  const page = window.open('', '_blank');
  const first = job.states[0]!.id;
  const states = compared ? pair : viewed === first ? ([viewed] as const) : ([first, viewed] as const);
  await adoptTyped();
  const html = await patientEngine.handover(states, units);
  const address = URL.createObjectURL(new Blob([html], { type: 'text/html' }));
  if (page) page.location.href = address;
  else window.location.assign(address);
};
