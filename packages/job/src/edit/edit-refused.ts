/** An edit that would leave the job without sense; the message says why and what would do. */
export class EditRefused extends Error {
  override readonly name = 'EditRefused';
}
