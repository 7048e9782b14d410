/**
 * Work that is done once at a time. Asked for while it is under way it is done once more, since what is under way may
 * have looked before: the promise comes true after a time that began no earlier than the call.
 */
export function onceAtATime(work: () => Promise<void>): () => Promise<void> {
  let current: Promise<void> | undefined;
  let next: Promise<void> | undefined;
  function begin(): Promise<void> {
    next = undefined;
    let end: (done: Promise<void>) => void = () => {};
    const done = new Promise<void>((resolve) => {
      end = resolve;
    });
    // Before it begins: what it does may ask for it.
    current = done;
    end(
      work().finally(() => {
        current = undefined;
      }),
    );
    return done;
  }
  return () => {
    if (next) return next;
    if (!current) return begin();
    next = current.then(begin, begin);
    return next;
  };
}
