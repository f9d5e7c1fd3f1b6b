import { describe, expect, it } from 'vitest';
import { comparableNetwork } from '../../bench/comparable.ts';
import { epanetModel } from '../../bench/epanet.ts';
import { houseNetwork, treeNetwork } from '../../bench/networks.ts';
import { compileNetwork, solveNetwork } from '../../packages/engine/src/network/index.ts';

/**
 * Oracle: EPANET 2.2 (public domain; package epanet-js), the same network with air as the fluid and its own friction
 * law (Swamee–Jain with Dunlop's cubic). Both hard-coded constants inside EPANET are corrected: 0.02517 for
 * 8/(π²g) and 28.317 litres per cubic foot.
 */
describe('agreement with EPANET', () => {
  it.each([
    ['house of 8 rooms', houseNetwork(8, 3)],
    ['house of 15 rooms', houseNetwork(15)],
    ['100 ducts', treeNetwork(100, 0)],
    ['100 ducts with 20 loops', treeNetwork(100, 20, 7)],
    ['1000 ducts with 20 loops', treeNetwork(1000, 20)],
  ])('%s', async (_name, network) => {
    const same = comparableNetwork(network);
    const epanet = await epanetModel(same);
    epanet.solve();
    const solution = solveNetwork(compileNetwork(same));
    expect(solution.converged).toBe(true);
    const scale = Math.max(...solution.flow_m3s.map(Math.abs));
    expect(scale).toBeGreaterThan(0.1);
    epanet.flows().forEach((flow, i) => {
      expect(Math.abs(flow - solution.flow_m3s[i]!) / scale).toBeLessThan(1e-5);
    });
    epanet.close();
  });
});
