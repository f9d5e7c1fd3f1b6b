import { compareWithEpanet } from './compare-with-epanet.ts';
import { demoNetwork } from './demo-network.ts';
import type { Line } from './line.ts';
import { houseNetwork, treeNetwork } from './networks.ts';

/** Speed against EPANET on the same networks in the same process. */
export async function network(): Promise<Line[]> {
  return [
    ...(await compareWithEpanet(demoNetwork(), 'Quail Run Lane')),
    ...(await compareWithEpanet(houseNetwork(15), 'house')),
    ...(await compareWithEpanet(treeNetwork(100, 0), '100 ducts')),
    ...(await compareWithEpanet(treeNetwork(100, 5), '100 ducts, 5 loops')),
    ...(await compareWithEpanet(treeNetwork(1000, 0), '1000 ducts')),
    ...(await compareWithEpanet(treeNetwork(1000, 20), '1000 ducts, 20 loops')),
  ];
}
