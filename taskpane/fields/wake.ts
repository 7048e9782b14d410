/** Keeps the screen from dimming while a field is shown. */
export interface Wake {
  /** Whether the system agreed. */
  isKept(): boolean;
  keep(isWanted: boolean): void;
}

/** @param onChange told when the system agreed, refused or took it back (a hidden window loses it) */
export function createWake(onChange: () => void): Wake {
  let lock: WakeLockSentinel | undefined;
  let isWanted = false;
  let isAsking = false;
  const ask = async () => {
    if (!isWanted || lock || isAsking || !('wakeLock' in navigator)) return;
    if (document.visibilityState !== 'visible') return;
    isAsking = true;
    try {
      const given = await navigator.wakeLock.request('screen');
      given.addEventListener('release', () => {
        lock = undefined;
        onChange();
      });
      lock = given;
    } catch {
      // Refused, as on a low battery. Not kept awake is what `isKept` then says, and the page tells the person.
      lock = undefined;
    }
    isAsking = false;
    if (!isWanted) void lock?.release();
    onChange();
  };
  document.addEventListener('visibilitychange', () => void ask());
  return {
    isKept: () => lock !== undefined,
    keep: (wanted) => {
      isWanted = wanted;
      if (wanted) void ask();
      else void lock?.release();
    },
  };
}
