/** The spoken phrases, as WAV files. */
import type { Router } from 'express';
import { answerFault, fault } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';

export function clipRoutes(router: Router, ports: WebPorts): void {
  address(router, '/clips/:file', {
    get: [
      requireRight(({ read }) => read),
      async (req, res, next) => {
        const path = await ports.clipFile(String(req.params.file));
        if (path === undefined) return answerFault(res, fault('no-such-clip', 'there is no such clip'));
        res.setHeader('Content-Type', 'audio/wav');
        // A clip's name stands for its words and its voice: what it holds never changes.
        res.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
        res.sendFile(path, { cacheControl: false, dotfiles: 'allow' }, (error) => {
          if (error !== undefined && !res.headersSent) next(error);
        });
      },
    ],
  });
}
