// node test/attack/door.mjs NAME URL: attacks a server by name until it is ended. It prints `attacking` once it has begun.
import '../../server/readTypescript.mjs';

await import('./main.ts');
