/** A reason why the service can't start, or can't go on, in one sentence that an operator can act on. */
export class StartupFailure extends Error {
  override readonly name = 'StartupFailure';
}
