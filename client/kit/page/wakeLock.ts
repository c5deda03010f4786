/** Keeps the screen on for as long as the page is looked at; browsers let go of the lock when the page is hidden. */
export function keepAwake(): void {
  if (!('wakeLock' in navigator)) return;
  const take = (): void => {
    if (document.visibilityState === 'visible') navigator.wakeLock.request('screen').catch(() => {});
  };
  document.addEventListener('visibilitychange', take);
  take();
}
