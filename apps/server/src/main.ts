import { startServer } from './index.ts';

const port = Number(process.env.PORT ?? 4310);
const jobFile = process.argv[2];

try {
  const { url, close } = await startServer({ port, open: true, jobFile });
  console.log(`Open ${url}`);
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, () => void close().finally(() => process.exit(0)));
} catch (error) {
  const taken = (error as NodeJS.ErrnoException).code === 'EADDRINUSE';
  console.error(taken ? `Port ${port} is in use. Choose another: PORT=${port + 1} npm start` : String(error));
  process.exit(1);
}
