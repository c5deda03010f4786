import type { IncomingMessage } from 'node:http';
import type { RequestHandler } from 'express';
import helmet from 'helmet';

/** No script, style or font but our own files; sockets to this very host; never inside another page. */
export function securityHeaders(secure: boolean): RequestHandler[] {
  // The Host has been checked by now. Older browsers do not take 'self' to cover sockets.
  const sockets = (req: IncomingMessage): string => `${secure ? 'wss' : 'ws'}://${req.headers.host ?? 'localhost'}`;
  return [
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          'default-src': ["'self'"],
          'script-src': ["'self'"],
          'style-src': ["'self'"],
          'img-src': ["'self'", 'data:', 'blob:'],
          'media-src': ["'self'", 'data:', 'blob:'],
          'connect-src': ["'self'", sockets],
          'worker-src': ["'self'"],
          'object-src': ["'none'"],
          'base-uri': ["'none'"],
          'form-action': ["'self'"],
          'frame-ancestors': ["'none'"],
        },
      },
      referrerPolicy: { policy: 'no-referrer' },
      xFrameOptions: { action: 'deny' },
      // With a certificate of our own making, this would take away the browser's way past its warning.
      strictTransportSecurity: false,
    }),
    (req, res, next) => {
      // The microphone is for the one page that records a voice.
      const microphone = req.path === '/voice' ? '(self)' : '()';
      res.setHeader(
        'Permissions-Policy',
        `camera=(), microphone=${microphone}, geolocation=(), payment=(), usb=(), autoplay=(self), fullscreen=(self), screen-wake-lock=(self)`,
      );
      next();
    },
  ];
}
