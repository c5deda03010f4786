/** Opens the journal named on the command line; prints what is thrown. */
import '../../server/readTypescript.mjs';

const { openJournal } = await import('../../server/journal/openJournal.ts');
try {
  openJournal({ file: process.argv[2], waitMs: 0 }).close();
  process.stdout.write('{"code":"opened"}');
} catch (error) {
  process.stdout.write(JSON.stringify({ code: error.code, message: error.message }));
}
