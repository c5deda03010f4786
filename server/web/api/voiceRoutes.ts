/** The voices that are here, and the recordings of the yard's own: seen, made and forgotten at the console. */
import type { Router } from 'express';
import { answerFault, fault, faultLike } from '../fault.ts';
import type { WebPorts } from '../webPorts.ts';
import { address, requireRight } from './guards.ts';
import { bodyOf } from './longBodies.ts';

export function voiceRoutes(router: Router, ports: WebPorts): void {
  const { voices } = ports;
  const mayRecord = requireRight((rights) => rights.voices);
  const noVoice = fault('no-such-voice', 'nothing is recorded by a voice of this name');

  address(router, '/voices', { get: [mayRecord, async (_req, res) => void res.json(await voices.list())] });
  address(router, '/voices/:name', {
    get: [
      mayRecord,
      async (req, res) => {
        const voice = await voices.recorded(String(req.params.name));
        if (voice === undefined) return answerFault(res, noVoice);
        res.json(voice);
      },
    ],
    delete: [
      mayRecord,
      async (req, res) => {
        if (await voices.forget(String(req.params.name))) res.status(204).end();
        else answerFault(res, noVoice);
      },
    ],
  });
  address(router, '/voices/:name/phrases', {
    post: [
      mayRecord,
      async (req, res) => {
        const ask = await bodyOf(ports, 'phrase', req);
        if (!ask.ok) return answerFault(res, faultLike('bad-request', ask.error));
        const { text, wav } = ask.value;
        const kept = await voices.keep(String(req.params.name), text, Buffer.from(wav, 'base64'));
        if (!kept.ok) return answerFault(res, faultLike('not-usable', kept.error));
        res.status(201).json({ voice: kept.voice, text, url: kept.url, durationMs: kept.durationMs });
      },
    ],
  });
}
