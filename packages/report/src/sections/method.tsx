import { modes } from '@airledger/engine';
import { type HandoverInput, handedOver } from '../handover-input.ts';

/** How the figures were made, what they leave out, and every source they name. */
export const Method = (input: HandoverInput) => {
  const { accounts, checks } = handedOver(input);
  const residual = Math.max(
    ...modes.flatMap((mode) => Object.values(accounts[mode].ledger.residual) as number[]),
  );
  const sources = [
    ...new Set([
      ...modes.flatMap((mode) => accounts[mode].loads.lines.map(({ source }) => source)),
      ...checks.map(({ source }) => source),
    ]),
  ].toSorted((a, b) => a.localeCompare(b, 'en'));
  return (
    <section>
      <h2 id="method">How the figures were made</h2>
      <p>
        One account holds loads, air and heat together: the ducts are solved as a network of pressures and
        flows with fan, leaks, rooms and buffer spaces; heat and moisture are balanced along every piece of
        duct and in every room and buffer space. Each place closes, in air and heat, to{' '}
        {residual < 1e-12 ? 'better than 1e-12' : residual.toExponential(0)} of the throughput.
      </p>
      <ul>
        <li>
          One share of the hour is taken for all fans of the house: that of the system that runs longest.
        </li>
        <li>
          What a room needs is the design airflow shared by its load and by what its supply ducts lose through
          their walls. Leaks do not raise the need; they show as shortage.
        </li>
        <li>Duct insulation counts with its labelled R, on its own area, with surface films.</li>
      </ul>
      <h3>Sources</h3>
      <ul>
        {sources.map((source) => (
          <li key={source}>{source}</li>
        ))}
      </ul>
    </section>
  );
};
