/** The error a call must end with; a call that succeeds fails the test. */
export async function refusal(call: () => Promise<unknown>): Promise<OfficeExtension.Error> {
  const outcome = await call().then(
    (value) => ({ value }),
    (error: unknown) => ({ error }),
  );
  if ('error' in outcome) return outcome.error as OfficeExtension.Error;
  throw new Error(`Expected a refusal, got ${JSON.stringify(outcome.value)}`);
}
