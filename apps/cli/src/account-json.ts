import type { Account } from '@airledger/engine';

/** An account for other programs: SI, without the solver's own arrays; only the lines of one place when named. */
export const accountJson = ({ house, rooms, systems, loads, ledger, heat }: Account, place?: string) => ({
  outdoor: loads.outdoor,
  indoor: loads.indoor,
  fanShareOfHour: heat.floating.share,
  house,
  rooms,
  systems,
  loads: loads.lines,
  ledger: {
    ...ledger,
    lines: ledger.lines.filter(({ from, to }) => place === undefined || from === place || to === place),
  },
});
