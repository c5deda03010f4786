// Speaks one text with the embedded voice to the standard output, and ends: a synthesiser started per call.
import load from '@echogarden/espeak-ng-emscripten';

const { eSpeakNGWorker } = await load();
const speaker = new eSpeakNGWorker();
speaker.set_voice('en-us');
speaker.set_rate(175);
speaker.synthesize(process.argv[2], (chunk) => {
  if (chunk.length > 0) process.stdout.write(new Uint8Array(chunk.buffer, chunk.byteOffset, chunk.byteLength).slice());
  return false;
});
process.stdout.end(() => process.exit(0));
