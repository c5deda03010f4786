import { WebSocket } from 'ws';

/** What a script outside the program does: JSON over HTTP, and the two raw sockets. */
export function outsideClient(url: string) {
  async function ask(method: string, path: string, body?: unknown) {
    const response = await fetch(url + path, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const text = await response.text();
    const json = (response.headers.get('content-type') ?? '').includes('application/json')
      ? JSON.parse(text)
      : undefined;
    return { status: response.status, text, json };
  }
  const get = (path: string) => ask('GET', path);
  const post = (path: string, body: unknown = {}) => ask('POST', path, body);
  return {
    get,
    post,
    async makeDemoRun(
      mode = 'pair',
      feed: object = { kind: 'external' },
      routine = 'mark by mark',
    ): Promise<{ run: string; plan: { marks: { mark: number; callDeg: number }[]; leads: string } }> {
      const { json: job } = await get('/api/jobs/demo');
      const made = await post('/api/runs', { ...job, mode, routine, feed });
      if (made.status !== 201) throw new Error(`no run was made: ${made.status} ${made.text}`);
      return made.json;
    },
    async journal(run: string): Promise<{ seq: number; kind: string; atMs: number; [more: string]: unknown }[]> {
      const { text } = await get(`/api/runs/${run}/journal`);
      return text
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line));
    },
    socket: (path: string) => openSocket(url.replace(/^http/, 'ws') + path),
  };
}

/** A raw socket that keeps what it hears and can wait for it. */
export async function openSocket(address: string) {
  const socket = new WebSocket(address);
  const heard: { readonly atMs: number; readonly frame: Frame }[] = [];
  const waiting = new Set<() => void>();
  socket.on('message', (data) => {
    heard.push({ atMs: performance.now(), frame: JSON.parse(String(data)) as Frame });
    for (const wake of waiting) wake();
  });
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  return {
    heard,
    send: (frame: unknown) => socket.send(JSON.stringify(frame)),
    /** The first frame heard (from the `from`th on) that fits; rejects after 5 s. */
    async until(fits: (frame: Frame) => boolean, from = 0): Promise<Frame> {
      for (const deadline = performance.now() + 5000; ; ) {
        const found = heard.slice(from).find(({ frame }) => fits(frame));
        if (found !== undefined) return found.frame;
        const leftMs = deadline - performance.now();
        if (leftMs <= 0) throw new Error(`nothing that fits was heard in 5 s among ${JSON.stringify(heard.slice(-5))}`);
        await new Promise<void>((resolve) => {
          const timer = setTimeout(wake, leftMs);
          function wake(): void {
            clearTimeout(timer);
            waiting.delete(wake);
            resolve();
          }
          waiting.add(wake);
        });
      }
    },
    close: () => socket.close(),
  };
}
export interface Frame {
  readonly kind?: string;
  readonly id?: string;
  readonly ok?: boolean;
  readonly seq?: number;
  readonly [more: string]: unknown;
}
