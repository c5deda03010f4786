/** The part of the package that is used; it brings no types of its own. */
declare module '@echogarden/espeak-ng-emscripten' {
  export interface Speaker {
    set_voice(identifier: string): number;
    set_rate(wordsPerMin: number): number;
    get_samplerate(): number;
    /** Calls back synchronously, chunk by chunk. Going on is the callback's falsy answer. */
    synthesize(text: string, take: (chunk: Int16Array) => boolean): void;
  }
  export interface Espeak {
    readonly eSpeakNGWorker: new () => Speaker;
  }
  const load: (options: { getPreloadedPackage: () => ArrayBufferLike }) => Promise<Espeak>;
  // biome-ignore lint/style/noDefaultExport: the package has no other.
  export default load;
}
