/** The pages, as vite built them. */
import { existsSync, readFileSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { join } from 'node:path';
import express, { type Response, type Router } from 'express';
import type { Access } from './access/access.ts';
import { type PageName, RIGHTS } from './access/rights.ts';
import type { Door } from './admission.ts';
import { KEY_COOKIE, queryOf } from './requestKey.ts';

const PAGES: Readonly<Record<string, PageName>> = {
  '/': 'index',
  '/sawyer': 'sawyer',
  '/wheel': 'wheel',
  '/codes': 'codes',
  '/record': 'record',
  '/voice': 'voice',
};
const COOKIE_LIFE_MS = 397 * 24 * 60 * 60 * 1000;
const COOKIE = { httpOnly: true, secure: true, sameSite: 'strict', path: '/' } as const;

interface PageParts {
  readonly pagesDir: string;
  readonly access: Access;
  readonly door: Door;
}

export function pageRoutes({ pagesDir, access, door }: PageParts): Router {
  const router = express.Router({ strict: false });
  const joinAssets = assetsOf(pagesDir);

  router.get('/join', (_req, res) => sendPage(res, pagesDir, 'join', 200));
  for (const [path, page] of Object.entries(PAGES))
    router.get(path, (req, res) => {
      const admission = door.admit(req);
      if (!admission.ok) {
        // A key that is no good any more would be sent, and counted as wrong, for ever. One in the address says nothing of the kept one.
        if (access.lan && !hasKeyInAddress(req)) res.clearCookie(KEY_COOKIE, COOKIE);
        return sendPage(res, pagesDir, 'join', admission.fault.status);
      }
      const { pages } = RIGHTS[admission.holder.role];
      const home = pages[0];
      if (home === undefined) return sendPage(res, pagesDir, 'join', 403);
      const query = new URLSearchParams(req.url.split('?')[1] ?? '');
      const key = query.get('key');
      if (access.lan && key !== null) res.cookie(KEY_COOKIE, key, { ...COOKIE, maxAge: COOKIE_LIFE_MS });
      if (pages.includes(page) && (key === null || !access.lan)) return sendPage(res, pagesDir, page, 200);
      // To the clean address: a key must not stay where it is read over a shoulder or kept in a list of visits.
      query.delete('key');
      const target = pages.includes(page) ? path : `/${home}`;
      res.redirect(303, query.size === 0 ? target : `${target}?${query}`);
    });

  router.use((req, res, next) => {
    // The pages have their addresses above; by their file names they would be open to every key.
    if (req.path.endsWith('.html')) return next('router');
    if (joinAssets.has(req.path)) return next();
    const admission = door.admit(req);
    if (admission.ok && RIGHTS[admission.holder.role].pages.length > 0) next();
    else res.status(401).type('text').send('This needs a key. Open /join to see how to get one.\n');
  });
  router.use(
    '/assets',
    express.static(join(pagesDir, 'assets'), { index: false, immutable: true, maxAge: '365d', redirect: false }),
  );
  router.use(express.static(pagesDir, { index: false, redirect: false, cacheControl: false, extensions: false }));
  return router;
}

const hasKeyInAddress = (req: IncomingMessage): boolean => queryOf(req).has('key');

function sendPage(res: Response, pagesDir: string, page: PageName | 'join', status: number): void {
  const path = join(pagesDir, `${page}.html`);
  res.status(status).setHeader('Cache-Control', 'no-cache');
  if (existsSync(path)) res.sendFile(path, { cacheControl: false, dotfiles: 'allow' });
  else
    res
      .status(status === 200 ? 404 : status)
      .type('html')
      .send(NOT_BUILT);
}

/** What the joining page is made of, and its styles of: the only files besides it that are given without a key. */
function assetsOf(pagesDir: string): ReadonlySet<string> {
  const read = (address: string): string => {
    const path = join(pagesDir, address);
    return existsSync(path) ? readFileSync(path, 'utf8') : '';
  };
  const named = [...read('join.html').matchAll(/(?:src|href)="(\/[^"]+)"/g)].map(([, address = '']) => address);
  const styles = named.filter((address) => address.endsWith('.css')).map(read);
  const inStyles = styles.flatMap((style) => style.match(/\/assets\/[\w.-]+/g) ?? []);
  return new Set([...named, ...inStyles]);
}

const NOT_BUILT = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>By the Mark</title></head>
<body><h1>The pages are not built</h1>
<p>The server runs, but its pages are missing. Stop it, run <code>npm run build</code> in its folder, and start it again.</p>
</body></html>
`;
