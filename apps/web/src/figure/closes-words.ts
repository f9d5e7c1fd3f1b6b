const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Floating-point numbers carry no more digits than this; less than that is nothing. */
const mostDigits = 15;

/** "to better than 1 part in 10¹²": how well an account closes, from its imbalance over the throughput. */
export const closesWords = (residual: number): string => {
  if (!Number.isFinite(residual)) return 'not: it holds a value that is no number';
  const digits = Math.min(mostDigits, Math.floor(-Math.log10(Math.abs(residual))));
  const power = [...String(Math.max(0, digits))].map((digit) => raised[Number(digit)]).join('');
  return `to better than 1 part in 10${power}`;
};
