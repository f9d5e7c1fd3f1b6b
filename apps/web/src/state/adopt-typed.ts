import type { Job } from '@airledger/job';
import { patientEngine } from '../worker/engine-client.ts';
import { useWorkbench } from './store.ts';

let adopted: Job | undefined;

/** Gives the patient engine the job in hand as it is typed by now, if it has another one. */
export const adoptTyped = async (): Promise<void> => {
  const { typed } = useWorkbench.getState();
  if (!typed || typed === adopted) return;
  adopted = typed;
  await patientEngine.adopt(typed);
};
