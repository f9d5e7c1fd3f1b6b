import { buildServer } from '../server/built-server.ts';

/** Before all tests: tests with a server of their own start it from one file, in a fraction of the time. */
export default buildServer;
