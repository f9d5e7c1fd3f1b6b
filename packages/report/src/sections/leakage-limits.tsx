import { formatQuantity } from '@airledger/engine';
import { allowedLeakage, codeEdition } from '@airledger/engine/rules/code-edition';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver, stateName } from '../handover-input.ts';

/** Leakage that each system may have: by the project, and by the code at each stage. */
export const LeakageLimits = (input: HandoverInput) => {
  const { job, states, units } = input;
  const { survey } = handedOver(input);
  const cfm = (flow: number) => formatQuantity(flow, 'airflow', units);
  const percent = (share: number) => formatQuantity(share, 'ratio', units);
  const { supplyLeakageLimit, returnLeakageLimit } = survey.code;
  const rows = survey.systems.flatMap(({ id, name, designAirflow_m3s: design }, s) => {
    // The smaller design airflow makes the stricter limit.
    const flow = Math.min(design.heating, design.cooling);
    const surveyed = (side: 'supply' | 'return') =>
      states.map(({ accounts }) => {
        const standing = accounts.cooling.systems[s]!;
        return cfm(side === 'supply' ? standing.supplyLeak25_m3s : standing.returnLeak25_m3s);
      });
    return [
      [
        `${name}, supply side`,
        percent(supplyLeakageLimit),
        cfm(supplyLeakageLimit * flow),
        ...surveyed('supply'),
      ],
      [
        `${name}, return side with air handler`,
        percent(returnLeakageLimit),
        cfm(returnLeakageLimit * flow),
        ...surveyed('return'),
      ],
    ].map((row) => ({ id, row }));
  });
  return (
    <>
      <h3>Leakage limits</h3>
      <DataTable
        caption="Project limit: tested total leakage at 25 Pa with the finished ducts"
        columns={[
          { head: 'System and side' },
          { head: 'of fan flow', number: true },
          { head: 'at design airflow', number: true },
          ...states.map(({ id }) => ({
            head: `Leaks surveyed, ${stateName(job, id).toLowerCase()}`,
            number: true,
          })),
        ]}
        rows={rows.map(({ row }) => row)}
        note="The limit is a share of the fan flow as measured on the day of the test; the flow beside it is for the design airflow."
      />
      <CodeLimits {...input} />
    </>
  );
};

const CodeLimits = (input: HandoverInput) => {
  const { survey } = handedOver(input);
  const { units } = input;
  const edition = codeEdition(survey.code.edition);
  if (!edition)
    return (
      <p>The duct leakage limits of {survey.code.edition} are not on file; ask the building department.</p>
    );
  const isOne = survey.systems.length === 1;
  const area = survey.house.conditionedFloorArea_m2;
  const columns = [
    { head: 'When tested' },
    { head: 'Measured as' },
    { head: 'Ducts' },
    { head: 'At most', number: true },
    ...(isOne ? [{ head: 'For this house, at 25 Pa', number: true }] : []),
    { head: 'Clause' },
  ];
  const rows = edition.leakage.map((row) => [
    row.stage,
    row.place === 'total' ? 'total' : 'to outdoors',
    row.where + returnsText(row.returns),
    formatQuantity(row.limit.flow25_m3sm2, 'airflowPerArea', units),
    ...(isOne ? [formatQuantity(allowedLeakage(row, area), 'airflow', units)] : []),
    `${row.clause} (${row.source})`,
  ]);
  return (
    <DataTable
      caption={`Code limit: ${edition.edition}`}
      columns={columns}
      rows={rows}
      note={`Conditioned floor area ${formatQuantity(area, 'area', units)}${isOne ? '' : '; each system counts the floor that it serves'}. Ducts and air handler wholly inside the envelope: ${edition.insideEnvelope.leakageTest === 'exempt' ? 'no test is asked' : 'own limit'} (${edition.insideEnvelope.clause}).`}
    />
  );
};

const returnsText = (returns: { readonly below?: number; readonly atLeast?: number } | undefined): string => {
  if (!returns) return '';
  return returns.below === undefined
    ? `, ${returns.atLeast} returns or more`
    : `, fewer than ${returns.below} returns`;
};
