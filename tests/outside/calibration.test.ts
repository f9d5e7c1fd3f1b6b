import { fitReadings, scaledReadings } from '@airledger/engine/calibrate/fit';
import { forwardModel, predict, startPressures } from '@airledger/engine/calibrate/forward-model';
import { priorOf, thetaOf, widePrior } from '@airledger/engine/calibrate/prior';
import { searchDefects } from '@airledger/engine/calibrate/search-defects';
import { evaluateTargets, type Target } from '@airledger/engine/calibrate/targets';
import { deletionResiduals, deviations, standardRow } from '@airledger/engine/calibrate/uncertainty';
import { describe, expect, it } from 'vitest';
import { caseModel, caseNetwork, caseReading, cfm } from '../fixtures/case-house.ts';
import { type CalibrationCase, calibrationCases } from './calibration-cases.ts';

const open = (given: CalibrationCase) => {
  const network = caseNetwork(given);
  const model = caseModel(
    network,
    given.readings.map(([id, , value, sd]) => [id, value, sd] as const),
  );
  const forward = forwardModel(model);
  const start = { z: new Float64Array(forward.unknowns), pressures: startPressures(forward) };
  /** The other program counts flows in cfm: its densities of flow readings are larger. */
  const inCfm =
    model.observations.filter(({ id }) => caseReading(network, id).unit !== 1).length * Math.log(cfm);
  return { network, model, forward, start, inCfm };
};

describe.each(calibrationCases)('$name', (given) => {
  const { network, model, forward, start, inCfm } = open(given);
  const fit = fitReadings(forward, priorOf(model), start, { mostIterations: 60, settled: 1e-6 });
  const unit = (id: string) => caseReading(network, id).unit;

  it('reads what the other program reads at the truth', () => {
    const predicted = new Float64Array(model.observations.length);
    const truth = Float64Array.from(given.parameters, ([, , , , , value]) => value);
    predict(forward, priorOf(model), truth, startPressures(forward), predicted);
    given.readings.forEach(([id, exact], i) => {
      const { sd } = model.observations[i]!;
      // Inputs are printed to four digits; pressures and flows of both programs agreed within 0.002.
      expect(Math.abs((predicted[i]! * sd) / unit(id) - exact), id).toBeLessThan(2e-3);
    });
  });

  it('finds the same minimum', () => {
    expect(fit.converged).toBe(true);
    // Readings are printed to 4 digits: one that lies 6 standard deviations off moves the objective by up to 1e-2.
    expect(Math.abs(fit.objective - given.objective)).toBeLessThan(given.objective > 50 ? 1e-3 : 1e-4);
    given.parameters.forEach(([id, , , , , , probable, sd], k) => {
      // The other program stopped when its objective stood still, which leaves vague unknowns some 1 % of their spread.
      expect(Math.abs(fit.theta[k]! - probable), id).toBeLessThan(1e-3 + 0.01 * sd);
    });
    given.readings.forEach(([id, , , sigma, atFit], i) => {
      const value = (fit.predicted[i]! * model.observations[i]!.sd) / unit(id);
      expect(Math.abs(value - atFit), id).toBeLessThan(0.01 * sigma);
    });
  });

  it('knows each unknown as well', () => {
    given.parameters.forEach(([id, , , , , , , sd], k) => {
      const row = new Float64Array(model.parameters.length);
      row[k] = 1;
      const { posterior } = deviations(fit, standardRow(fit.prior, row, forward.unknowns));
      expect(Math.abs(posterior - sd), id).toBeLessThan(1.5e-3);
    });
  });

  it('gives the same figures of the house in use', () => {
    const outside = (side: 'supply' | 'return'): Target => ({
      kind: 'flow',
      edges: given.leaks.flatMap(([id]) =>
        /^(ret|cabinet)/.test(id) === (side === 'return')
          ? [{ edge: network.leakEdges.get(id)![0], sign: 1 }]
          : [],
      ),
      ln: false,
    });
    const targets = given.targets.map(
      ([id]): Target =>
        id === 'supout'
          ? outside('supply')
          : id === 'retout'
            ? outside('return')
            : {
                kind: 'flow',
                edges: [{ edge: network.edgeInto('register', `b${id.slice(1)}`), sign: 1 }],
                ln: false,
              },
    );
    const rows = targets.map(() => new Float64Array(model.parameters.length));
    const values = evaluateTargets(forward, targets, fit.theta, fit.pressures, rows);
    given.targets.forEach(([id, , probable, sd], i) => {
      expect(Math.abs(Math.abs(values[i]!) / cfm - probable), id).toBeLessThan(0.01 * sd);
      const { posterior } = deviations(fit, standardRow(fit.prior, rows[i]!, forward.unknowns));
      expect(Math.abs(posterior / cfm / sd - 1), id).toBeLessThan(5e-3);
    });
  });

  it('weighs the same defects', () => {
    expect(Math.abs(fit.logEvidence + inCfm - given.logEvidence)).toBeLessThan(5e-3);
    const search = searchDefects(forward, { depth: 2, expansions: 14, patience: 12 });
    let step = search.next();
    while (!step.done) step = search.next();
    const found = new Map(
      step.value.hypotheses.map((one) => [
        one.defects
          .map((k) => model.parameters[k]!.id)
          .sort()
          .join('+'),
        one,
      ]),
    );
    for (const [places, logWeight, weight] of given.hypotheses) {
      const one = found.get([...places].sort().join('+'));
      expect(one, places.join('+')).toBeDefined();
      // Only the six best were followed to their end; the last ones stopped within some hundredths of a nat.
      const followed = weight > 0.05 || places.length === 0;
      expect(Math.abs(one!.logWeight + inCfm - logWeight), places.join('+')).toBeLessThan(
        followed ? 7e-3 : 3e-2,
      );
      // The bags differ in what else they hold: weights are compared with the heaviest.
      const [mine, theirs] = [
        one!.weight / step.value.hypotheses[0]!.weight,
        weight / given.hypotheses[0]![2],
      ];
      expect(Math.abs(mine - theirs)).toBeLessThan(0.005);
    }
  });

  it('sees each reading as far off from the others', () => {
    const wide = fitReadings(forward, widePrior(model), start, { mostIterations: 60, settled: 1e-6 });
    const found = deletionResiduals(wide, scaledReadings(forward));
    given.deletion.forEach(([id, residual], i) => {
      expect(Math.abs(found[i]!.residual - residual), id).toBeLessThan(6e-3);
    });
  });

  it('has the slopes of central differences, every reading by every unknown', () => {
    const prior = priorOf(model);
    const { unknowns } = forward;
    const m = model.observations.length;
    const z = fit.z.map((value, k) => value + 0.3 * Math.sin(k));
    const theta = new Float64Array(model.parameters.length);
    const at = (from: Float64Array, jacobian?: Float64Array) => {
      thetaOf(prior, from, theta);
      const predicted = new Float64Array(m);
      predict(
        forward,
        prior,
        theta,
        fit.pressures.map((one) => one.slice()),
        predicted,
        jacobian,
      );
      return predicted;
    };
    const jacobian = new Float64Array(m * unknowns);
    at(z, jacobian);
    const step = 4e-3;
    for (let k = 0; k < unknowns; k++) {
      const moved = (by: number) => at(z.map((value, j) => (j === k ? value + by : value)));
      const [more, less] = [moved(step), moved(-step)];
      for (let i = 0; i < m; i++) {
        const difference = (more[i]! - less[i]!) / (2 * step);
        const slope = jacobian[i * unknowns + k]!;
        expect(Math.abs(slope - difference), `${model.observations[i]!.id} by ${k}`).toBeLessThan(
          1e-4 + 1e-4 * Math.abs(slope),
        );
      }
    }
  });
});
