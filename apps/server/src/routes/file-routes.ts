import type { FastifyInstance } from 'fastify';
import { findFiles, keepFile, sha256Of } from '../store/files.ts';
import type { Store } from '../store/open-store.ts';
import { fileTypeOf, sha256Named } from './read-request.ts';
import { notFound, Refusal } from './refusal.ts';

type WithSha256 = { Params: { sha256: string } };
const largest = 32 * 2 ** 20;

/** Photos and drawings, by the SHA-256 of their bytes. */
export const fileRoutes = async (
  server: FastifyInstance,
  storeReady: () => Promise<Store>,
): Promise<void> => {
  // In a context of its own, as only here a body is taken as bytes.
  await server.register(async (scope) => {
    scope.removeAllContentTypeParsers();
    scope.addContentTypeParser('*', { parseAs: 'buffer', bodyLimit: largest }, (_request, body, done) =>
      done(null, body),
    );

    scope.put<WithSha256>('/api/blobs/:sha256', { bodyLimit: largest }, async (request, reply) => {
      const sha256 = sha256Named(request.params.sha256);
      const type = fileTypeOf(request.headers['content-type']);
      const bytes = request.body as Buffer;
      if (sha256Of(bytes) !== sha256)
        throw new Refusal(400, {
          error: 'The bytes are not those of the name.',
          path: 'sha256',
          expected: sha256Of(bytes),
          remedy: 'Send the file again.',
        });
      await keepFile((await storeReady()).db, sha256, { type, bytes });
      return reply.code(201).send({ sha256, type, size: bytes.length });
    });

    scope.get<WithSha256>('/api/blobs/:sha256', async (request, reply) => {
      const sha256 = sha256Named(request.params.sha256);
      const file = (await findFiles((await storeReady()).db, [sha256])).get(sha256);
      if (file === undefined) throw notFound(`file ${sha256}`);
      // Only pictures and PDF are kept, and a browser takes them for nothing else.
      return reply
        .type(file.type)
        .header('cache-control', 'private, max-age=31536000, immutable')
        .header('x-content-type-options', 'nosniff')
        .send(Buffer.from(file.bytes));
    });
  });
};
