/**
 * `CustomFunctions.Error` of the runtime: a code such as `#N/A` and, for `#VALUE!` and `#N/A`, a message that
 * stands behind the cell's error flag.
 */
export class CustomFunctionError extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message);
    this.name = 'CustomFunctions.Error';
  }
}
