/** Something that stops a command: what is wrong and what to do about it. Ends with exit code 2. */
export class Failure extends Error {
  constructor(
    message: string,
    readonly remedy = '',
    options?: ErrorOptions,
  ) {
    super(message, options);
    this.name = 'Failure';
  }
}

/** Exit codes, the same for every command. */
export const EXIT = { holds: 0, findings: 1, failed: 2 } as const;
export type Exit = (typeof EXIT)[keyof typeof EXIT];
