// The voice's own thread, in which whatever reaches for the network throws.
import dns from 'node:dns';
import net from 'node:net';

const refuse = () => {
  throw new Error('the voice reached for the network');
};
net.Socket.prototype.connect = refuse;
dns.lookup = refuse;
globalThis.fetch = refuse;
export const { speak, about } = await import('../../audio/voice/door.mjs');
