/** Sockets that send more than they should, and come back when they are let go. */
import { io } from 'socket.io-client';
import { WebSocket } from 'ws';

const addressOf = (url: string, path: string): string => url.replace(/^http/, 'ws') + path;
/** More than this on its way, and the attacker waits for the network as any program must. */
const UNSENT_BYTES = 1_000_000;
const AT_ONCE = 200;

/** Sends frames as fast as the server takes them off the wire, for ever. */
export function flood(url: string, path: string, frame: () => string): void {
  const socket = new WebSocket(addressOf(url, path));
  socket.on('error', () => {});
  socket.on('close', () => setTimeout(() => flood(url, path, frame), 50));
  socket.on('open', () => {
    const more = (): void => {
      if (socket.readyState !== socket.OPEN) return;
      for (let n = 0; n < AT_ONCE && socket.bufferedAmount < UNSENT_BYTES; n += 1) socket.send(frame());
      setImmediate(more);
    };
    more();
  });
}

/** Sends so many frames a second, as a sender within its rights does; comes back if it is let go. */
export function steadySender(url: string, path: string, perSecond: number, frame: () => string): void {
  const socket = new WebSocket(addressOf(url, path));
  socket.on('error', () => {});
  let timer: NodeJS.Timeout | undefined;
  socket.on('close', () => {
    clearInterval(timer);
    setTimeout(() => steadySender(url, path, perSecond, frame), 50);
  });
  socket.on('open', () => {
    const beganMs = performance.now();
    let sent = 0;
    timer = setInterval(() => {
      for (const due = ((performance.now() - beganMs) * perSecond) / 1000; sent < due; sent += 1) socket.send(frame());
    }, 10);
  });
}

/** A page that joins a run and then sends events as fast as it can. */
export function pageFlood(url: string, run: string, event: () => readonly [string, ...unknown[]]): void {
  const page = io(url, { transports: ['websocket'], forceNew: true, reconnection: false });
  const again = (): void => {
    page.removeAllListeners();
    page.disconnect();
    setTimeout(() => pageFlood(url, run, event), 50);
  };
  page.on('connect_error', again);
  page.on('disconnect', again);
  page.on('connect', () => {
    page.emit('join', { run, role: 'wheel' });
    const more = (): void => {
      if (!page.connected) return;
      const transport = (page.io.engine as unknown as { transport: { ws?: { bufferedAmount: number } } }).transport;
      for (let n = 0; n < AT_ONCE && (transport.ws?.bufferedAmount ?? 0) < UNSENT_BYTES; n += 1) page.emit(...event());
      setImmediate(more);
    };
    more();
  });
}
