// Lets this process or thread read our TypeScript, from whatever folder it is started in. Node does so by itself from 22.18 on,
// but not inside a folder node_modules, where the installed program lies; there, and on an older Node, tsx does.
const isReadByNode = Boolean(process.features.typescript) && !import.meta.url.includes('/node_modules/');
if (isReadByNode) {
  const { emitWarning } = process;
  // Node 22 says once in every thread that it may yet change how it does that.
  process.emitWarning = (warning, ...rest) => {
    if (!String(warning).includes('Type Stripping is an experimental feature'))
      emitWarning.call(process, warning, ...rest);
  };
} else {
  const { register } = await import('tsx/esm/api');
  // No tsconfig of the folder that the program was started in counts here.
  register({ tsconfig: false });
}
