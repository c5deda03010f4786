// Started by clips.test.ts with plain node, from a folder of its own: renders one phrase and tells it on stdout.
import '../../server/readTypescript.mjs';

const { openClips } = await import('../../audio/clips.ts');
const clips = openClips({ dataDir: process.cwd() });
process.stdout.write(JSON.stringify(await clips.render(['twelve and a half'])));
await clips.close();
