/** What this browser lets the page do here, found by trying: a certificate that was only clicked away allows less than it looks. */
let offline = $state(false);

export async function openShell(): Promise<void> {
  if (!isSecureContext || !('serviceWorker' in navigator) || import.meta.env.DEV) return;
  try {
    await navigator.serviceWorker.register('/offline.js');
    await navigator.serviceWorker.ready;
    offline = true;
  } catch {
    offline = false;
  }
}

export const keptHere = {
  /** The page itself reloads with the server away. */
  get offline(): boolean {
    return offline;
  },
  /** The screen can be kept on. */
  get awake(): boolean {
    return isSecureContext && 'wakeLock' in navigator;
  },
};

/** Keeps the screen on as long as a component lives, where the browser allows it. */
export function stayAwake(): void {
  $effect(() => {
    let lock: WakeLockSentinel | null = null;
    let ended = false;
    const take = async (): Promise<void> => {
      if (!keptHere.awake || document.visibilityState !== 'visible') return;
      try {
        const taken = await navigator.wakeLock.request('screen');
        if (ended) await taken.release();
        else lock = taken;
      } catch {
        lock = null; // low battery: the phone says no
      }
    };
    const again = (): void => {
      void take();
    };
    again();
    document.addEventListener('visibilitychange', again);
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', again);
      void lock?.release();
    };
  });
}
